use slingseal_catalogue::{Saying, faults as words};
use std::fmt;

use geoconvert::{LatLon, Mgrs, UtmUps};

use super::units::Degrees;

/// Why a text or a place has no grid reference.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GridError {
    /// Not the shape of a reference.
    Shape(String),
    /// Easting and northing do not have the same number of digits, or more than five each.
    Digits {
        /// What was written.
        text: String,
        /// How many digits stand behind the square.
        digits: usize,
    },
    /// The letters name a square that is not in that zone.
    NoSuchSquare(String),
    /// Not a place on Earth.
    NotAPlace {
        /// Degrees, north positive.
        latitude: String,
        /// Degrees, east positive.
        longitude: String,
    },
}

impl GridError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Shape(text) => words::GridErrorShape { text }.into(),
            Self::Digits { text, digits } => words::GridErrorDigits { text, digits }.into(),
            Self::NoSuchSquare(text) => words::GridErrorNoSuchSquare { text }.into(),
            Self::NotAPlace { latitude, longitude } => {
                words::GridErrorNotAPlace { latitude, longitude }.into()
            }
        }
    }
}

slingseal_catalogue::error_by_saying!(GridError);

/// How large the square is that a grid reference names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GridPrecision {
    /// 100 km: no digits.
    Km100,
    /// 10 km: one digit each for easting and northing.
    Km10,
    /// 1 km: two digits each.
    Km1,
    /// 100 m: three digits each.
    M100,
    /// 10 m: four digits each.
    M10,
    /// 1 m: five digits each.
    M1,
}

impl GridPrecision {
    /// Every precision, coarsest first.
    pub const ALL: [Self; 6] = [Self::Km100, Self::Km10, Self::Km1, Self::M100, Self::M10, Self::M1];

    /// Digits of the easting, and of the northing.
    pub fn digits(self) -> u8 {
        match self {
            Self::Km100 => 0,
            Self::Km10 => 1,
            Self::Km1 => 2,
            Self::M100 => 3,
            Self::M10 => 4,
            Self::M1 => 5,
        }
    }

    fn from_digits(digits: usize) -> Option<Self> {
        Self::ALL.into_iter().find(|precision| usize::from(precision.digits()) == digits)
    }
}

/// A grid reference of the Military Grid Reference System on WGS 84: UTM between 80° S and 84° N, UPS at the poles
/// (NGA.STND.0037). It names a square, and a place is in the square whose south-west corner is the truncated one.
///
/// Kept as it travels: no blanks, upper case, two digits of the zone (`04QFJ12345678`, at the poles `ZGG0000`).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GridRef {
    text: String,
    precision: GridPrecision,
}

impl GridRef {
    /// The most bytes that it may have.
    pub const MOST: usize = 15;

    /// Reads a reference; blanks are ignored, the case of letters is folded, and a zone may have one digit.
    ///
    /// # Errors
    /// Another shape, unequal digits, or a square that is not in the zone.
    pub fn new(text: &str) -> Result<Self, GridError> {
        let shown = || text.trim().chars().take(40).collect::<String>();
        let shape = || GridError::Shape(shown());
        let plain: String = text.chars().filter(|c| *c != ' ').collect::<String>().to_ascii_uppercase();
        // The converter behind this is never shown anything but a well-shaped text.
        if !plain.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
            return Err(shape());
        }
        let letters = plain.trim_start_matches(|c: char| c.is_ascii_digit());
        let zone_digits = plain.len() - letters.len();
        let numbers = letters.trim_start_matches(|c: char| c.is_ascii_alphabetic());
        let letter_count = letters.len() - numbers.len();
        if zone_digits > 2 || letter_count != 3 || !numbers.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(shape());
        }
        let precision = (numbers.len() % 2 == 0)
            .then(|| GridPrecision::from_digits(numbers.len() / 2))
            .flatten()
            .ok_or_else(|| GridError::Digits { text: shown(), digits: numbers.len() })?;
        let text = if zone_digits == 1 { format!("0{plain}") } else { plain };
        let there = Mgrs::parse_str(&text).map_err(|_| GridError::NoSuchSquare(shown()))?.to_latlon();
        if !(there.latitude().is_finite() && there.longitude().is_finite()) {
            return Err(GridError::NoSuchSquare(shown()));
        }
        Ok(Self { text, precision })
    }

    /// The square that holds a place: latitude north positive, longitude east positive, WGS 84.
    ///
    /// # Errors
    /// A latitude beyond ±90° or a longitude beyond ±180°.
    pub fn of(latitude: Degrees, longitude: Degrees, precision: GridPrecision) -> Result<Self, GridError> {
        let not_a_place = || GridError::NotAPlace {
            latitude: latitude.value().to_string(),
            longitude: longitude.value().to_string(),
        };
        // 180° east is 180° west; the converter knows the second name only.
        let east = if longitude.value() == 180.0 { -180.0 } else { longitude.value() };
        let place = LatLon::create(latitude.value(), east).map_err(|_| not_a_place())?;
        let square = Square::of(&place.to_utmups(), latitude.value()).ok_or_else(not_a_place)?;
        Self::new(&square.text(precision)).map_err(|_| not_a_place())
    }

    /// As it travels: `32TLQ4236984896`.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// As it is read out: `32T LQ 42369 84896`; at the poles `Z BF 11034 07682`.
    pub fn spaced(&self) -> String {
        let digits = usize::from(self.precision.digits());
        let head = self.text.len().saturating_sub(2 * digits + 2);
        let mut spaced = String::with_capacity(self.text.len() + 3);
        for (at, letter) in self.text.chars().enumerate() {
            if at == head || (digits > 0 && (at == head + 2 || at == head + 2 + digits)) {
                spaced.push(' ');
            }
            spaced.push(letter);
        }
        spaced
    }

    /// How large the square is.
    pub fn precision(&self) -> GridPrecision {
        self.precision
    }

    /// The middle of the square: latitude (north positive) and longitude (east positive), WGS 84.
    pub fn middle(&self) -> (Degrees, Degrees) {
        let there = Mgrs::parse_str(&self.text).map(|mgrs| mgrs.to_latlon());
        let (latitude, longitude) = there.map_or((0.0, 0.0), |there| (there.latitude(), there.longitude()));
        let degrees = |value| Degrees::new(value).expect("`new` refused a square that has no finite middle");
        (degrees(latitude), degrees(longitude))
    }
}

impl fmt::Display for GridRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

/// The letters of a 100 km square, and the metres in it. The library converts both ways, but writes no text at the equator
/// (it panics), so the letters are set here.
struct Square {
    zone: String,
    letters: [char; 3],
    easting: i64,
    northing: i64,
}

impl Square {
    const BANDS: &str = "CDEFGHJKLMNPQRSTUVWX";
    const COLUMNS: [&str; 3] = ["ABCDEFGH", "JKLMNPQR", "STUVWXYZ"];
    const ROWS: &str = "ABCDEFGHJKLMNPQRSTUV";
    /// Of the bands A, B, Y, Z: the band's letter, its columns from the pole's meridian or from the western edge, its rows.
    const POLAR: [(char, &str, &str); 4] = [
        ('A', "JKLPQRSTUXYZ", "ABCDEFGHJKLMNPQRSTUVWXYZ"),
        ('B', "ABCFGHJKLPQR", "ABCDEFGHJKLMNPQRSTUVWXYZ"),
        ('Y', "RSTUXYZ", "ABCDEFGHJKLMNP"),
        ('Z', "ABCFGHJ", "ABCDEFGHJKLMNP"),
    ];

    /// `None` outside the grid, which a latitude within ±90° never is.
    fn of(there: &UtmUps, latitude: f64) -> Option<Self> {
        let letter = |letters: &str, at: i64| letters.chars().nth(usize::try_from(at).ok()?);
        // Finite and below 10⁷ m: the casts are exact.
        let (x, y) = (there.easting().floor() as i64, there.northing().floor() as i64);
        let (easting, northing) = (x.rem_euclid(100_000), y.rem_euclid(100_000));
        let (column, row) = (x.div_euclid(100_000), y.div_euclid(100_000));
        if there.zone() == 0 {
            let (north, east) = (latitude > 0.0, column >= 20);
            let (band, columns, rows) = Self::POLAR.get(usize::from(north) * 2 + usize::from(east))?;
            let south_west = if north { 13 } else { 8 };
            let column = column - if east { 20 } else { south_west };
            let letters = [*band, letter(columns, column)?, letter(rows, row - south_west)?];
            return Some(Self { zone: String::new(), letters, easting, northing });
        }
        let zone = i64::from(there.zone());
        // Bands are 8° high from 80° S; the last is 12° high.
        let band = (((latitude + 80.0) / 8.0).floor() as i64).clamp(0, 19);
        let columns = Self::COLUMNS.get(usize::try_from((zone - 1).rem_euclid(3)).ok()?)?;
        // Rows repeat every 2,000 km, and begin at F in even zones. The south's false northing is a multiple of that.
        let row = (row + if zone % 2 == 0 { 5 } else { 0 }).rem_euclid(20);
        let letters = [letter(Self::BANDS, band)?, letter(columns, column - 1)?, letter(Self::ROWS, row)?];
        Some(Self { zone: format!("{zone:02}"), letters, easting, northing })
    }

    fn text(&self, precision: GridPrecision) -> String {
        let digits = usize::from(precision.digits());
        let mut text = self.zone.clone();
        text.extend(self.letters);
        for metres in [self.easting, self.northing] {
            text.extend(format!("{metres:05}").chars().take(digits));
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::{GridError, GridPrecision, GridRef};
    use crate::Degrees;

    fn of(latitude: f64, longitude: f64, precision: GridPrecision) -> String {
        let degrees = |value| Degrees::new(value).unwrap();
        GridRef::of(degrees(latitude), degrees(longitude), precision).unwrap().to_string()
    }

    /// The examples of the manual of GeographicLib's GeoConvert, and the Washington Monument of FGDC-STD-011-2001 §5.2.2
    /// (its corner in degrees by PROJ 9.3).
    #[test]
    fn published_points() {
        assert_eq!(of(33.0 + 20.0 / 60.0, 44.0 + 24.0 / 60.0, GridPrecision::Km1), "38SMB4488");
        let (latitude, longitude) = GridRef::new("38SMB4488").unwrap().middle();
        assert_eq!(format!("{:.5} {:.5}", latitude.value(), longitude.value()), "33.33424 44.40363");

        let (north, west) = (38.889_467_309_501_576, -77.035_240_215_624_2);
        for (precision, want) in GridPrecision::ALL.into_iter().zip([
            "18SUJ",
            "18SUJ20",
            "18SUJ2306",
            "18SUJ234064",
            "18SUJ23480647",
            "18SUJ2348306479",
        ]) {
            assert_eq!(of(north, west, precision), want);
        }
    }

    /// GeographicLib 2.1.2, `GeoConvert -m -p 0`; those marked NGA also by NGA's GEOTRANS (through the package mgrs 1.6.0
    /// of PyPI), which gave the same text. Norway's and Svalbard's wide zones, the poles, the date line, zone and band edges.
    #[test]
    fn geographiclib_and_nga() {
        for (latitude, longitude, want) in [
            (0.0, 0.0, "31NAA6602100000"),
            (-0.000_000_1, 0.0, "31MAV6602199999"),
            (60.0, 3.0, "32VJM6564066593"),
            (59.99, 5.0, "32VKM7691257044"),
            (75.0, 8.99, "31XFD7278032339"),
            (75.0, 9.01, "33XUD2721932339"),
            (75.0, 33.01, "37XCD2721932339"),
            (83.999_9, 30.0, "35XNP3499528994"),
            (84.0, 30.0, "ZFB3336322596"),
            (-79.999_9, 100.0, "47CNM1938418258"),
            (-80.000_1, 100.0, "BQL9603106740"),
            (90.0, 0.0, "ZAH0000000000"),
            (-90.0, 0.0, "BAN0000000000"),
            (-85.0, -179.999_9, "AZG9999944542"),
            (12.345_6, -180.0, "01PAP7370866597"),
            (12.345_6, 180.0, "01PAP7370866597"),
            (12.345_6, 179.999_99, "60PZU2629066597"),
            (71.999_9, 41.0, "37WEV6896990066"),
            (72.000_1, 41.0, "37XEV6896990088"),
            (60.5, 4.5, "32VKN5292815548"),            // NGA
            (78.2, 15.0, "33XWG0000080689"),           // NGA
            (-33.868_8, 151.209_3, "56HLH3436850948"), // NGA
            (84.3, 50.0, "ZGC8516492898"),             // NGA
            (89.9, 45.0, "ZAG0785092149"),             // NGA
            (64.837_8, -147.716_4, "06WVS6601290570"), // NGA
            (19.432_6, -99.133_2, "14QMG8601748700"),  // NGA
            (56.1, 3.1, "32VJH3322632906"),            // NGA
        ] {
            assert_eq!(of(latitude, longitude, GridPrecision::M1), want, "{latitude} {longitude}");
        }
    }

    /// The middle of a square by GeographicLib 2.1.2, `GeoConvert -p 4`.
    #[test]
    fn back_to_degrees() {
        for (text, want) in [
            ("32TLQ4236984896", "45.000002989 7.000001682"),
            ("32TLQ", "44.687685439 7.107075615"),
            ("ZBF1103407682", "88.000001606 29.999986505"),
            ("AUU98", "-83.253683883 -24.001280966"),
            ("32XNN1234", "78.681605740 9.570536047"),
            ("5QKB1234554321", "19.462728289 -155.739908775"),
        ] {
            let (latitude, longitude) = GridRef::new(text).unwrap().middle();
            assert_eq!(format!("{:.9} {:.9}", latitude.value(), longitude.value()), want, "{text}");
        }
    }

    #[test]
    fn read_as_people_write_it() {
        let grid = GridRef::new(" 32t lq 42369 84896 ").unwrap();
        assert_eq!(grid.as_str(), "32TLQ4236984896");
        assert_eq!(grid.spaced(), "32T LQ 42369 84896");
        assert_eq!(grid.precision(), GridPrecision::M1);
        assert_eq!(GridRef::new("4QFJ12").unwrap().spaced(), "04Q FJ 1 2");
        assert_eq!(GridRef::new("32TLQ").unwrap().spaced(), "32T LQ");
        assert_eq!(GridRef::new("zbf1107").unwrap().spaced(), "Z BF 11 07");
    }

    #[test]
    fn refuses_what_is_no_reference() {
        for bad in ["", "32", "32T", "LQ42369", "132TLQ12", "32TLQX12", "32TLQ12é4", "32TLQ\n1234", "32 TL-Q"]
        {
            assert!(matches!(GridRef::new(bad), Err(GridError::Shape(_))), "{bad}");
        }
        for bad in ["32TLQ123", "32TLQ123456789012"] {
            assert!(matches!(GridRef::new(bad), Err(GridError::Digits { .. })), "{bad}");
        }
        // Zone 61; band I; a column of another zone set; a row that is not in the band; polar bands with a zone.
        for bad in ["61TLQ12", "32ILQ12", "32TAQ12", "32TLA12", "32ALQ12", "0TLQ12"] {
            assert!(matches!(GridRef::new(bad), Err(GridError::NoSuchSquare(_))), "{bad}");
        }
        let degrees = |value| Degrees::new(value).unwrap();
        for (latitude, longitude) in [(90.1, 0.0), (-91.0, 0.0), (0.0, 180.1), (0.0, -181.0)] {
            assert!(matches!(
                GridRef::of(degrees(latitude), degrees(longitude), GridPrecision::M1),
                Err(GridError::NotAPlace { .. })
            ));
        }
    }

    /// The middle of every square that a place gives lies in the same square: 1 m to 1 km, a net over the whole Earth.
    #[test]
    fn there_and_back() {
        let mut checked = 0;
        for latitude in (-899..=899).step_by(13) {
            for longitude in (-1799..1800).step_by(37) {
                // Off the edges of zones and bands, where the middle of a square may lie on the other side.
                let place = (f64::from(latitude) / 10.0 + 0.037, f64::from(longitude) / 10.0 + 0.053);
                for precision in [GridPrecision::M1, GridPrecision::M10, GridPrecision::M100] {
                    let text = of(place.0, place.1, precision);
                    let (north, east) = GridRef::new(&text).unwrap().middle();
                    assert_eq!(of(north.value(), east.value(), precision), text, "{place:?}");
                    checked += 1;
                }
            }
        }
        assert!(checked > 30_000);
    }

    /// The library panics where it thinks that a case cannot be: every lettering, and places on all its edges.
    #[test]
    fn never_panics() {
        let letters = || 'A'..='Z';
        for zone in ["", "0", "1", "2", "31", "32", "33", "60", "61"] {
            for (band, column) in letters().flat_map(|band| letters().map(move |column| (band, column))) {
                for row in letters() {
                    if let Ok(grid) = GridRef::new(&format!("{zone}{band}{column}{row}00009999")) {
                        grid.middle();
                    }
                }
            }
        }
        for latitude in -90..=90 {
            for longitude in -60..=60 {
                of(f64::from(latitude), f64::from(longitude) * 3.0, GridPrecision::M1);
            }
        }
    }
}
