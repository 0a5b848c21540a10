use slingseal_words::Ratio;

/// The share that was found, and the bounds between which the true share lies with 95 % confidence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Found among all.
    pub share: Ratio,
    /// The lower bound.
    pub low: Ratio,
    /// The upper bound.
    pub high: Ratio,
}

/// The two-sided 95 % score interval of a proportion (E. B. Wilson, "Probable inference, the law of succession, and
/// statistical inference", J. Am. Stat. Assoc. 22, 1927, pp. 209–212), without continuity correction.
///
/// It stays honest where the textbook interval does not: with few loads, and with none found it still has a width. `None`
/// where nothing was counted, or more were found than counted.
pub fn wilson_95(found: u32, of: u32) -> Option<Interval> {
    /// The 97.5 % point of the normal distribution.
    const Z: f64 = 1.959_963_984_540_054;
    if of == 0 || found > of {
        return None;
    }
    let n = f64::from(of);
    let share = f64::from(found) / n;
    let z2 = Z * Z;
    let middle = (share + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z * (share * (1.0 - share) / n + z2 / (4.0 * n * n)).sqrt() / (1.0 + z2 / n);
    // At the ends the bound is exactly 0 or 1; the arithmetic misses it by a last bit.
    let low = if found == 0 { 0.0 } else { (middle - half).max(0.0) };
    let high = if found == of { 1.0 } else { (middle + half).min(1.0) };
    let ratio = |value| Ratio::new(value).ok();
    Some(Interval { share: ratio(share)?, low: ratio(low)?, high: ratio(high)? })
}

#[cfg(test)]
mod tests {
    use super::wilson_95;

    /// R. G. Newcombe, Stat. Med. 17 (1998), pp. 857–872, table I, method 3: the four examples that the literature compares
    /// by. Quoted from memory; the next test confirms them.
    #[test]
    fn published_examples() {
        for (found, of, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let interval = wilson_95(found, of).unwrap();
            let four = |value: f64| (value * 1e4).round() / 1e4;
            assert_eq!(
                (four(interval.low.value()), four(interval.high.value())),
                (low, high),
                "{found}/{of}"
            );
        }
    }

    /// SciPy 1.17.1, `binomtest(k, n).proportion_ci(method="wilson")`.
    #[test]
    fn independent_library() {
        for (found, of, low, high) in [
            (81, 263, 0.2552885198782742, 0.36620957698280004),
            (15, 148, 0.06238639953073629, 0.16048724172330803),
            (0, 20, 0.0, 0.16112515805281935),
            (1, 29, 0.006113214292762667, 0.17175521879320282),
            (3, 4, 0.30064184258240184, 0.9544127391902995),
            (4, 4, 0.5101091635454027, 1.0),
            (1, 1, 0.20654931437723745, 1.0),
            (7, 1000, 0.0033948684009907646, 0.014378315465766588),
            (50000, 100000, 0.49690108435968966, 0.5030989156403103),
        ] {
            let interval = wilson_95(found, of).unwrap();
            assert!((interval.low.value() - low).abs() < 1e-12, "{found}/{of}: {interval:?}");
            assert!((interval.high.value() - high).abs() < 1e-12, "{found}/{of}: {interval:?}");
        }
    }

    #[test]
    fn nothing_counted_and_too_many_found() {
        assert_eq!(wilson_95(0, 0), None);
        assert_eq!(wilson_95(3, 2), None);
    }

    #[test]
    fn the_share_lies_inside_and_the_bounds_mirror() {
        for of in 1..=60 {
            for found in 0..=of {
                let one = wilson_95(found, of).unwrap();
                let other = wilson_95(of - found, of).unwrap();
                assert!(0.0 <= one.low.value() && one.low <= one.share);
                assert!(one.share <= one.high && one.high.value() <= 1.0);
                assert!((one.low.value() + other.high.value() - 1.0).abs() < 1e-12);
            }
        }
    }
}
