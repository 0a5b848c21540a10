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
    let across = |row: &[u8]| -> Vec<u16> {
        let first = row.first().copied().unwrap_or(0);
        let last = row.last().copied().unwrap_or(0);
        let left = std::iter::once(first).chain(row.iter().copied());
        let right = row.iter().copied().skip(1).chain(std::iter::once(last));
        left.zip(row).zip(right).map(|((l, &m), r)| u16::from(l) + 2 * u16::from(m) + u16::from(r)).collect()
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
pub(super) fn darker_than_around(picture: &Luma, reach: usize, bias: i64) -> Vec<bool> {
    let (width, height) = (picture.width(), picture.height());
    // Sums of all pixels above and to the left, with a border of zeros.
    let wide = width + 1;
    let mut sums: Vec<u32> = vec![0; wide];
    for (at, row) in picture.rows().enumerate() {
        let mut run = 0u32;
        sums.push(0);
        for (x, &pixel) in row.iter().enumerate() {
            run += u32::from(pixel);
            let above = sums.get(at * wide + x + 1).copied().unwrap_or(0);
            sums.push(above.wrapping_add(run));
        }
    }
    let line = |y: usize| sums.get(y * wide..(y + 1) * wide).unwrap_or(&[]);
    let mut dark = Vec::with_capacity(width * height);
    for (y, row) in picture.rows().enumerate() {
        let (top, bottom) = (y.saturating_sub(reach), (y + reach + 1).min(height));
        let (top_line, bottom_line) = (line(top), line(bottom));
        for (x, &pixel) in row.iter().enumerate() {
            let (left, right) = (x.saturating_sub(reach), (x + reach + 1).min(width));
            let at = |line: &[u32], x: usize| line.get(x).copied().unwrap_or(0);
            let sum = at(bottom_line, right)
                .wrapping_sub(at(bottom_line, left))
                .wrapping_sub(at(top_line, right))
                .wrapping_add(at(top_line, left));
            let area = i64::try_from((bottom - top) * (right - left)).unwrap_or(1);
            dark.push((i64::from(pixel) + bias) * area < i64::from(sum));
        }
    }
    dark
}
