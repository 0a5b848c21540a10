//! Treatments of a grey picture that make a code in it readable: each undoes one kind of damage.

use super::luma::Luma;

/// Dark and light exchanged: a code shown light on dark.
pub(super) fn inverted(picture: &Luma) -> Luma {
    picture.map(|pixel| 255 - pixel)
}

/// Contrast stretched so that all but one pixel in a hundred at each end fill the whole range.
pub(super) fn stretched(picture: &Luma) -> Luma {
    let mut counts = [0usize; 256];
    for &pixel in picture.pixels() {
        if let Some(count) = counts.get_mut(usize::from(pixel)) {
            *count += 1;
        }
    }
    let cut = picture.pixels().len() / 100;
    let mut seen = 0;
    let mut beyond = |count: &usize| {
        seen += count;
        seen > cut
    };
    let low = counts.iter().position(&mut beyond).unwrap_or(0);
    seen = 0;
    let mut beyond = |count: &usize| {
        seen += count;
        seen > cut
    };
    let high = counts.iter().rposition(&mut beyond).unwrap_or(255);
    let span = high.saturating_sub(low).max(1);
    picture.map(|pixel| {
        let value = usize::from(pixel).saturating_sub(low) * 255 / span;
        u8::try_from(value.min(255)).unwrap_or(255)
    })
}

/// Each pixel the weighted mean of itself and its eight neighbours (1 2 1 by 1 2 1).
pub(super) fn smoothed(picture: &Luma) -> Luma {
    let weigh = |l: u8, m: u8, r: u8| u16::from(l) + 2 * u16::from(m) + u16::from(r);
    let across = |row: &[u8]| -> Vec<u16> {
        let mut sums = Vec::with_capacity(row.len());
        if let [first, second, ..] = row {
            sums.push(weigh(*first, *first, *second));
        }
        let inner = row.iter().zip(row.iter().skip(1)).zip(row.iter().skip(2));
        sums.extend(inner.map(|((&l, &m), &r)| weigh(l, m, r)));
        if let [.., before, last] = row {
            sums.push(weigh(*before, *last, *last));
        }
        sums.resize(row.len(), 4 * u16::from(row.first().copied().unwrap_or(0)));
        sums
    };
    let sums: Vec<Vec<u16>> = picture.rows().map(across).collect();
    let mut pixels = Vec::with_capacity(picture.pixels().len());
    for (at, middle) in sums.iter().enumerate() {
        let above = at.checked_sub(1).and_then(|at| sums.get(at)).unwrap_or(middle);
        let below = sums.get(at + 1).unwrap_or(middle);
        pixels.extend(
            above
                .iter()
                .zip(middle)
                .zip(below)
                .map(|((a, m), b)| u8::try_from((a + 2 * m + b + 8) / 16).unwrap_or(255)),
        );
    }
    picture.with_pixels(pixels).unwrap_or_else(|| picture.clone())
}

/// Each pixel pushed away from the smoothed picture: undoes some blur.
pub(super) fn sharpened(picture: &Luma) -> Luma {
    let soft = smoothed(&smoothed(picture));
    let pixels = picture
        .pixels()
        .iter()
        .zip(soft.pixels())
        .map(|(&sharp, &soft)| {
            let value = i32::from(sharp) + 2 * (i32::from(sharp) - i32::from(soft));
            u8::try_from(value.clamp(0, 255)).unwrap_or(255)
        })
        .collect();
    picture.with_pixels(pixels).unwrap_or_else(|| picture.clone())
}

/// Twice as wide and high, with the pixels between interpolated: helps where a module has fewer than three pixels.
pub(super) fn doubled(picture: &Luma) -> Luma {
    let wide: Vec<Vec<u8>> = picture
        .rows()
        .map(|row| {
            let next = row.iter().skip(1).chain(row.last());
            row.iter().zip(next).flat_map(|(&a, &b)| [a, mean(a, b)]).collect()
        })
        .collect();
    let mut pixels = Vec::with_capacity(picture.pixels().len() * 4);
    for (at, row) in wide.iter().enumerate() {
        let next = wide.get(at + 1).unwrap_or(row);
        pixels.extend(row);
        pixels.extend(row.iter().zip(next).map(|(&a, &b)| mean(a, b)));
    }
    Luma::new(picture.width() * 2, picture.height() * 2, pixels).unwrap_or_else(|| picture.clone())
}

/// Half as wide and high, each pixel the mean of four: helps where a large picture is noisy or blurred.
pub(super) fn halved(picture: &Luma) -> Option<Luma> {
    let (width, height) = (picture.width() / 2, picture.height() / 2);
    let mut pixels = Vec::with_capacity(width * height);
    let mut rows = picture.rows();
    while let (Some(above), Some(below)) = (rows.next(), rows.next()) {
        pixels.extend(above.chunks_exact(2).zip(below.chunks_exact(2)).map(|(a, b)| {
            let sum: u32 = a.iter().chain(b).map(|&pixel| u32::from(pixel)).sum();
            u8::try_from((sum + 2) / 4).unwrap_or(255)
        }));
    }
    Luma::new(width, height, pixels)
}

fn mean(a: u8, b: u8) -> u8 {
    u8::try_from((u16::from(a) + u16::from(b)).div_ceil(2)).unwrap_or(255)
}

/// Whether each pixel is darker than the mean of the square of `2 × reach + 1` pixels around it, less `bias`.
pub(super) fn darker_than_around(picture: &Luma, reach: usize, bias: i32) -> Vec<bool> {
    let (width, height) = (picture.width(), picture.height());
    let rows: Vec<&[u8]> = picture.rows().collect();
    // The sum of each column over the rows in reach.
    let mut columns = vec![0u32; width];
    let add = |columns: &mut Vec<u32>, row: &[u8]| {
        columns.iter_mut().zip(row).for_each(|(sum, &pixel)| *sum += u32::from(pixel));
    };
    rows.iter().take(reach).for_each(|row| add(&mut columns, row));
    // `up_to[at]` is the sum of the columns before `at - reach`, so that a window is a difference of two.
    let window = 2 * reach + 1;
    let mut up_to = vec![0u32; width + window];
    let wide: Vec<i32> = (0..width)
        .map(|x| i32::try_from((x + reach + 1).min(width) - x.saturating_sub(reach)).unwrap_or(1))
        .collect();
    let mut dark = Vec::with_capacity(width * height);
    for (y, row) in rows.iter().enumerate() {
        if let Some(row) = rows.get(y + reach) {
            add(&mut columns, row);
        }
        if let Some(row) = y.checked_sub(reach + 1).and_then(|y| rows.get(y)) {
            columns.iter_mut().zip(*row).for_each(|(sum, &pixel)| *sum -= u32::from(pixel));
        }
        let tall = i32::try_from((y + reach + 1).min(height) - y.saturating_sub(reach)).unwrap_or(1);
        let mut run = 0;
        let (inner, after) = up_to.split_at_mut(reach + 1 + width);
        for (sum, &column) in inner.iter_mut().skip(reach + 1).zip(&columns) {
            run += column;
            *sum = run;
        }
        after.fill(run);
        let sums = up_to.iter().skip(window).zip(&up_to).map(|(end, start)| end.wrapping_sub(*start) as i32);
        let around = sums.zip(&wide);
        dark.extend(
            row.iter()
                .zip(around)
                .map(|(&pixel, (sum, &wide))| (i32::from(pixel) + bias) * (wide * tall) < sum),
        );
    }
    dark
}
