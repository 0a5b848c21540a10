//! Refusals, blocks and faults in the reader's language. English is their `Display`; here stands the Spanish.

use crate::procedure::Fate;
use slingseal_words::Language;

use super::facts::TagFault;
use super::refusal::{Block, Refusal};
use super::state::At;

impl Refusal {
    /// One line: what is wrong; what to do.
    pub fn say(&self, language: Language) -> String {
        if language == Language::Spanish { self.in_spanish() } else { self.to_string() }
    }

    fn in_spanish(&self) -> String {
        match self {
            Self::NotBegun => "la inspección no ha empezado; empiécela".into(),
            Self::BegunAlready => "la inspección ya empezó; siga donde está".into(),
            Self::Paused => "la inspección está en pausa; reanúdela primero".into(),
            Self::NotPaused => "la inspección no está en pausa; siga".into(),
            Self::NotDecided => "no hay nada decidido; siga".into(),
            Self::Ended { .. } => {
                "esta inspección ha terminado; inspeccione la carga de nuevo en otra".into()
            }
            Self::InspectorIsRigger { inspector } => {
                format!("{inspector} es quien aparejó según la etiqueta; debe inspeccionar otra persona")
            }
            Self::OtherProcedure { tag, procedure } => {
                format!("la etiqueta pide el procedimiento {tag} y este es {procedure}; tome {tag}")
            }
            Self::NotTheInspector { by, inspector } => format!(
                "{by} no es quien inspecciona; debe hacerlo {inspector}, o detenga la inspección y empiece otra"
            ),
            Self::NotThisCard { pressed, current } => {
                let at = match current {
                    At::Card(card) => format!("la tarjeta {card}"),
                    At::Decision => "la decisión".into(),
                };
                format!(
                    "esa respuesta era de la tarjeta {pressed} y la inspección está en {at}; lea la pantalla y pulse otra vez"
                )
            }
            Self::NoSuchCard { card, last } => format!("no hay tarjeta {card}; vaya de la 1 a la {last}"),
            Self::NotOnThisCard { card, point } => {
                format!("{point} no está en la tarjeta {card}; nombre un punto de ella")
            }
            Self::NoSuchDeficiency { point, name } => {
                format!("\"{name}\" no es deficiencia de {point}; use uno de sus nombres u otra con una nota")
            }
            Self::NoteNeeded => "otra deficiencia necesita una nota; diga qué está mal".into(),
            Self::TooManyPhotos { photos, most } => {
                format!("{photos} fotos son demasiadas para una anotación; quédese con las {most} mejores")
            }
            Self::OpenAlready { finding } => {
                format!("esa deficiencia ya está abierta con el número {finding}; haga que se corrija")
            }
            Self::ValueNeeded { point, wanted } => {
                format!("{point} necesita antes su propia respuesta; ponga {}", wanted_in_spanish(wanted))
            }
            Self::Applies { point } => {
                format!("{point} vale para toda carga de este procedimiento; respóndalo o diga qué está mal")
            }
            Self::RejectsNothing { finding } => {
                format!(
                    "el hallazgo {finding} no rechaza ninguna pieza; dé el número de serie de una rechazada"
                )
            }
            Self::WrongKind { point, wanted } => {
                format!("{point} no se responde así; ponga {}", wanted_in_spanish(wanted))
            }
            Self::WrongUnit { point, units } => format!("{point} no se mide en esa unidad; use {units}"),
            Self::NoSuchOption { point, name } => {
                format!("{point} no tiene la opción \"{name}\"; elija una de las suyas")
            }
            Self::OpenHere { finding } => {
                format!("el hallazgo {finding} está abierto aquí; corríjalo y reinspeccione, o deshaga")
            }
            Self::NoSuchFinding { finding } => format!("no hay hallazgo {finding}; vea la lista"),
            Self::NotInPlace { name, fate } => {
                let then = match fate {
                    Fate::InPlace | Fate::Rerig => "haga aparejar de nuevo e inspeccione otra vez",
                    Fate::NewTag => "pida otra etiqueta e inspeccione con ella",
                    Fate::Reject => "retire la pieza, apareje con otra e inspeccione otra vez",
                };
                format!("\"{name}\" no se corrige en el sitio; decida no apta y {then}")
            }
            Self::PutRightAlready { finding } => {
                format!("el hallazgo {finding} ya está corregido; debe reinspeccionarse")
            }
            Self::NotPutRight { finding } => {
                format!("el hallazgo {finding} no está corregido; haga que se corrija y reinspeccione")
            }
            Self::ClosedAlready { finding } => format!("el hallazgo {finding} está cerrado; no falta nada"),
            Self::StillDeficient => {
                "ese valor sigue siendo deficiente; responda que sigue mal o póngalo otra vez".into()
            }
            Self::NothingToUndo => "no hay nada que deshacer; siga".into(),
            Self::NotTheLastAnswer { pressed, .. } => {
                format!("la respuesta {pressed} no es la última; lea la pantalla y pulse otra vez")
            }
            Self::NotFit { blocks } => {
                let first = blocks.first().map(|block| block.say(Language::Spanish)).unwrap_or_default();
                let more = match blocks.len().saturating_sub(1) {
                    0 => String::new(),
                    more => format!(", y {more} más"),
                };
                format!("la carga no puede decidirse apta: {first}{more}; resuélvalo o decida no apta")
            }
            Self::ReasonNeeded => "nada dice por qué la carga no es apta; dé un motivo".into(),
        }
    }
}

fn wanted_in_spanish(wanted: &str) -> &str {
    match wanted {
        "count" => "la cuenta",
        "choice" => "la elección",
        "measure" => "la medida",
        "serial number" | "serial" => "el número de serie",
        "text" => "el texto",
        other => other,
    }
}

impl Block {
    /// What stands in the way of fit, in one line.
    pub fn say(&self, language: Language) -> String {
        if language == Language::English {
            return self.to_string();
        }
        match self {
            Self::Unanswered { cards: 1, first } => format!("la tarjeta {first} no tiene respuesta"),
            Self::Unanswered { cards, first } => {
                format!("{cards} tarjetas sin respuesta, la primera es la {first}")
            }
            Self::Open { finding, card, name } => {
                format!("el hallazgo {finding} de la tarjeta {card} está abierto: {name}")
            }
            Self::AwaitsSecondLook { finding, card, name } => {
                format!("el hallazgo {finding} de la tarjeta {card} espera la reinspección: {name}")
            }
            Self::Tag(fault) => fault.say(language),
            Self::Rigging { summary } => format!("aparejo: {summary}"),
        }
    }
}

impl TagFault {
    /// What the tag shows to be wrong, in one line.
    pub fn say(&self, language: Language) -> String {
        if language == Language::English {
            return self.to_string();
        }
        match self {
            Self::InspectionPast { serial, kind, due } => {
                format!("{kind} {serial}: su próxima inspección vencía {}", due.dtg())
            }
            Self::OverAllowable { gross, allowable } => {
                format!("el peso bruto {gross} supera la carga admisible {allowable}")
            }
            Self::OverRating { gross, rating, serial, kind } => {
                format!("el peso bruto {gross} supera la capacidad {rating} de {kind} {serial}")
            }
            Self::Rejected { serial, why, at } => {
                format!("la pieza {serial} fue rechazada {}: {why}", at.dtg())
            }
            Self::NoLinkCount { leg } => format!("la etiqueta no trae eslabón para el ramal {leg}"),
            Self::NotAMass { what, value } => format!("{what} en la etiqueta es {value}, que no es una masa"),
        }
    }
}
