//! The weighing in the rigging editor: scales under points, a second weighing for the height, items.

use maud::{Markup, html};
use slingseal_app::catalogue::{Saying, rigging as words};
use slingseal_app::{Language, RiggingFields};

use super::rig::{Rig, field, place};

/// Whether nothing stands in a row of the form.
pub(in crate::serve) fn is_free(fields: &RiggingFields, of: &str, at: usize) -> bool {
    let before = format!("{of}.{at}.");
    !fields.iter().any(|(name, value)| name.starts_with(&before) && !value.trim().is_empty())
}

/// The rows in which anything stands.
fn rows(rig: &Rig, of: &str) -> Vec<usize> {
    (0..64).filter(|at| !is_free(&rig.fields, of, *at)).collect()
}

/// Everything that is weighed. Open where anything is.
pub(super) fn weighing_fields(rig: &Rig, language: Language) -> Markup {
    let say = |saying: Saying| saying.say(language);
    let (level, tilted, items) = (rows(rig, "weighed"), rows(rig, "tilted"), rows(rig, "item"));
    let weighs = !level.is_empty() || !items.is_empty();
    html! {
        details #weighing open[weighs] {
            summary { (say(words::EditorWeighing.into())) }
            p { (say(words::EditorWeighingIntro.into())) }
            @for at in level { (scale(rig, "weighed", at, &say(words::EditorScale { number: at + 1 }.into()), language)) }
            fieldset { legend { (say(words::EditorHeight.into())) }
                (field(rig, "height", &say(words::EditorHeight.into()), "30 in"))
                (field(rig, "height.tolerance", &say(words::EditorTolerance.into()), "1 in"))
            }
            fieldset { legend { (say(words::EditorTilt.into())) }
                (field(rig, "tilted.pitch", &say(words::EditorNoseUp.into()), "8 deg"))
                (field(rig, "tilted.roll", &say(words::EditorLeftUp.into()), ""))
                (field(rig, "tilted.raised", &say(words::EditorRaised.into()), "20 in"))
                (field(rig, "tilted.over", &say(words::EditorOver.into()), "108 in"))
                (field(rig, "tilted.tolerance", &say(words::EditorTolerance.into()), "0.2 deg"))
                @for (axis, letter) in axes().into_iter().zip(["x", "y", "z"]) {
                    (field(rig, &format!("tilted.rest.{letter}"), &say(words::EditorRest { axis }.into()), ""))
                }
            }
            @for at in tilted { (scale(rig, "tilted", at, &say(words::EditorScaleTilted { number: at + 1 }.into()), language)) }
            @for at in items { (item(rig, at, language)) }
            p.row {
                button name="do" value="weigh" { (say(words::EditorWeigh.into())) } " "
                button name="do" value="scale" data-page { (say(words::EditorAddScale.into())) } " "
                button name="do" value="tilted" data-page { (say(words::EditorAddScale.into())) ": " (say(words::EditorTilt.into())) } " "
                button name="do" value="item" data-page { (say(words::EditorAddItem.into())) }
            }
        }
    }
}

fn axes() -> [Saying; 3] {
    [words::AxisX.into(), words::AxisY.into(), words::AxisZ.into()]
}

fn scale(rig: &Rig, of: &str, at: usize, title: &str, language: Language) -> Markup {
    let of = format!("{of}.{at}");
    html! {
        fieldset { legend { (title) }
            (field(rig, &format!("{of}.name"), &words::EditorName.say(language), ""))
            (place(rig, &of, language))
            (field(rig, &format!("{of}.reads"), &words::EditorReads.say(language), "1310 lb"))
            (field(rig, &format!("{of}.tare"), &words::EditorTare.say(language), "12 lb"))
            (field(rig, &format!("{of}.tolerance"), &words::EditorTolerance.say(language), "10 lb"))
        }
    }
}

fn item(rig: &Rig, at: usize, language: Language) -> Markup {
    let of = |name: &str| format!("item.{at}.{name}");
    let out = [("", words::EditorPutOn.say(language)), ("out", words::EditorTakenOff.say(language))];
    html! {
        fieldset { legend { (words::EditorItem { number: at + 1 }.say(language)) }
            (field(rig, &of("name"), &words::EditorName.say(language), ""))
            (field(rig, &of("mass"), &words::EditorMass.say(language), "85 lb"))
            (field(rig, &of("tolerance"), &words::EditorTolerance.say(language), "1 lb"))
            (place(rig, &format!("item.{at}"), language))
            (field(rig, &of("place"), &words::EditorPlaceTolerance.say(language), "1 in"))
            label { span { (words::EditorItemOut.say(language)) }
                select name=(of("out")) { @for (value, word) in out { option value=(value) selected[value == rig.get(&of("out"))] { (word) } } } }
        }
    }
}
