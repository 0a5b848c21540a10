use maud::{Markup, html};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use slingseal_app::catalogue::page as words;
use slingseal_app::{Language, ShareView};

/// Everything but what is plain in one part of a path.
const PART: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_');

/// A value as one part of a path or query.
pub(in crate::serve) fn encoded(text: &str) -> String {
    utf8_percent_encode(text, PART).to_string()
}

/// The right end of a scale in per cent that holds every upper bound.
pub(super) fn scale<'s>(shares: impl Iterator<Item = &'s ShareView>) -> f64 {
    let most = shares.filter_map(|share| share.high_percent).fold(0.0, f64::max);
    [5.0, 10.0, 20.0, 40.0, 60.0].into_iter().find(|end| most <= *end).unwrap_or(100.0)
}

/// A share as a bar with the whisker of its 95 % interval, on a scale from nought to `end` per cent.
pub(super) fn bar(share: &ShareView, end: f64, language: Language) -> Markup {
    const WIDTH: f64 = 300.0;
    let (Some(percent), Some(low), Some(high)) = (share.percent, share.low_percent, share.high_percent)
    else {
        return html! { span.none { (words::NothingCounted.say(language)) } };
    };
    let x = |percent: f64| format!("{:.1}", 2.0 + (percent / end).clamp(0.0, 1.0) * (WIDTH - 4.0));
    let told = words::ShareTold {
        percent: format!("{:.1}", percent),
        low: format!("{:.1}", low),
        high: format!("{:.1}", high),
    }
    .say(language);
    html! {
        svg.bar viewBox="0 0 300 26" role="img" aria-label=(told) {
            @for tick in [0.0, 0.25, 0.5, 0.75, 1.0] {
                line.tick x1=(x(tick * end)) y1="1" x2=(x(tick * end)) y2="25" {}
            }
            rect.share x="2" y="6" width=(format!("{:.1}", (percent / end).clamp(0.0, 1.0) * (WIDTH - 4.0))) height="14" {}
            line.whisker x1=(x(low)) y1="13" x2=(x(high)) y2="13" {}
            line.whisker x1=(x(low)) y1="7" x2=(x(low)) y2="19" {}
            line.whisker x1=(x(high)) y1="7" x2=(x(high)) y2="19" {}
        }
    }
}

/// The ends of the scale, for the head of the column.
pub(super) fn axis(end: f64) -> Markup {
    html! { span.axis { span { "0 %" } span { (format!("{:.0}", end / 2.0)) " %" } span { (format!("{end:.0} %")) } } }
}

/// The numbers beside the bar.
pub(super) fn numbers(share: &ShareView, language: Language) -> Markup {
    html! {
        (words::FoundOf { found: share.found, of: share.of }.say(language))
        @if let (Some(percent), Some(low), Some(high)) = (share.percent, share.low_percent, share.high_percent) {
            br;
            span.small.told { (format!("{percent:.1} % ({low:.1}–{high:.1})")) }
        }
    }
}
