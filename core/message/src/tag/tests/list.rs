use super::{no_file, now, plan};
use crate::tag::read_list;

const HEAD: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,rigger,equipment,links";

fn faults(list: &str) -> Vec<String> {
    let error = read_list(list, now(), &no_file).unwrap_err();
    error.iter().map(ToString::to_string).collect()
}

/// The same load as the plan of the other tests, as one line.
#[test]
fn a_line_makes_the_tag_that_a_plan_makes() {
    let line = "km-014,\"Water drums, pair\",drums,4200 lb,Heron M2,7000 lb,Kestrel Meadow,33TWN1234567890,\
                Alder Bridge,Mason 5,sling leg | SL-0091 | 2.5 t | data plate | 2026-12-01,1:3";
    let tags = read_list(&format!("\u{FEFF}{HEAD}\r\n{line}\r\n\r\n"), now(), &no_file).unwrap();
    assert_eq!(tags, [plan()]);
    // A spreadsheet of a country whose decimal sign is the comma; columns in another order, written by people.
    let other = "Destination;LOAD;pickup;Gross;allowable;aircraft;procedure;description;Pickup grid\n\
                 Alder Bridge;KM-1;Kestrel Meadow;900 kg;1 t;Heron M2;bag;Rations;45.0 7.0\n";
    let tags = read_list(other, now(), &no_file).unwrap();
    // GeographicLib's GeoConvert, 45.000002989 7.000001682 being the middle of the square metre 32TLQ4236984896.
    assert_eq!(tags[0].pickup.grid.as_ref().unwrap().as_str(), "32TLQ42368489");
    assert_eq!(tags[0].gross.to_string(), "900 kg");
}

#[test]
fn every_fault_has_its_line_and_column() {
    let list = format!(
        "{HEAD}\n\
         KM-1,Rations,bag,1800,Heron M2,7000 lb,Kestrel Meadow,99XYZ,Alder Bridge,,net,1:3; 2\n\
         KM 2,,bag,0 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,sling | S-1 | 5 t,\n\
         KM-3,Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,,\n\
         KM-3,Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,,\n\
         KM-4,Rations, dry,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,,\n"
    );
    assert_eq!(
        faults(&list),
        [
            "2:4: gross: \"1800\" has no unit; write a number with kg, lb or t, such as 5000 lb",
            "2:8: pickup_grid: \"99XYZ\" names a square that does not exist; check the zone and the letters",
            "2:11: equipment: \"net\" has no kind and serial number; write kind | serial | rating | source of the rating | next inspection",
            "2:12: links: \"2\" is no leg with its link; write 1:3; 2:3 and so on",
            "3:1: load: the load number has \" \" in it; use letters A to Z, digits, hyphen, slash and dot",
            "3:2: description: the field is empty; fill it in",
            "3:4: gross: it is not above nought; write the mass",
            "3:11: equipment: the rating of S-1 has no source; write kind | serial | rating | source of the rating | next inspection",
            "5:1: load KM-3 stands on line 4 already; give each load a number of its own",
            "6:13: there are 13 fields and 12 columns; put a field with a comma in it into quotes",
        ]
    );
}

#[test]
fn a_head_line_that_does_not_serve_is_told_at_once() {
    let told = faults("load,load,weight\nKM-1,KM-1,5\n");
    assert!(
        told.iter().any(|fault| fault == "1:1: there is no column \"gross\"; add it to the head line"),
        "{told:?}"
    );
    assert!(
        told.iter().any(|fault| fault.starts_with("1:2: the column \"load\" is there twice")),
        "{told:?}"
    );
    assert!(told.iter().any(|fault| fault.starts_with("1:3: no column \"weight\" is known")), "{told:?}");
    assert_eq!(faults(HEAD), ["1:1: the list has no load; write one line a load under the head line"]);
    assert!(!faults("").is_empty());
}

/// The columns of the basis make what the keys of a plan make.
#[test]
fn a_line_has_the_basis_that_a_plan_has() {
    let list = format!(
        "{HEAD},legs,weight_source,manual,airspeed,when\n\
         KM-1,Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,,,1:SL-0091,weighed,\
         \"the governing manual, row 12 | 2024\",80 kt | row 12,fuel; night\n\
         KM-2,Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,,,,,,,,none\n"
    );
    let tags = read_list(&list, now(), &no_file).unwrap();
    let mut planned = super::second().basis;
    planned.edition = None;
    assert_eq!(tags[0].basis, planned);
    assert_eq!(tags[1].basis.conditions.as_ref().map(|set| set.len()), Some(0));
    let wrong = list.replace("1:SL-0091", "1:SL-1; 1:SL-2").replace("80 kt | row 12", "80 kt");
    let told = faults(&wrong);
    assert!(told[0].contains("legs: a leg stands there twice; give each leg one serial"), "{told:?}");
    assert!(told[1].contains("airspeed: \"80 kt\" has no source"), "{told:?}");
}
