use super::*;

fn new<'a>(row: &'a RecordRow, seal: &'a [u8], body: Option<&'a [u8]>, words: &'a str) -> NewRecord<'a> {
    NewRecord { row, seal, body, deficiencies: &[], equipment: &[], facts: None, words }
}

/// A home with one record for each text.
fn home(folder: &Folder, texts: &[&str]) -> Store {
    let mut store = folder.open().0;
    store
        .write(|tx| {
            for (number, words) in (0..).zip(texts) {
                let row = row(number);
                tx.put_record(&new(&row, &bytes_of("seal", row.digest), None, words))?;
            }
            Ok::<(), StoreError>(())
        })
        .unwrap();
    store
}

fn found(store: &Store, words: &str) -> Vec<String> {
    let filter = RecordFilter { words: Some(words.into()), ..RecordFilter::default() };
    let page = store.read().records(&filter, None, 50).unwrap();
    page.rows.into_iter().map(|row| row.load).collect()
}

#[test]
fn a_beginning_is_asked_for_by_the_words_that_it_can_be() {
    let folder = Folder::new();
    let store = home(&folder, &["drinking water", "Drinker", "drum", "DRINKING"]);
    let asked = |words: &str| store.read().question(words).unwrap();
    assert_eq!(asked("drink").unwrap(), "(\"drinker\" OR \"drinking\")");
    assert_eq!(asked("drinking WATE").unwrap(), "(\"drinking\") AND (\"water\")");
    // The index has lists of its own for these.
    assert_eq!(asked("dri wa").unwrap(), "\"dri\"* AND \"wa\"*");
    assert_eq!(asked("drone"), None);
    assert_eq!(asked(" -- "), None);
    // Which letters are the same is the index's to say.
    assert_eq!(asked("\u{e9}clair").unwrap(), "\"\u{e9}clair\"*");
    assert_eq!(found(&store, "drink"), ["KM-003", "KM-001", "KM-000"]);
    assert_eq!(found(&store, "drinking water"), ["KM-000"]);
    assert_eq!(found(&store, "drum water"), [""; 0]);
}

#[test]
fn letters_that_the_index_takes_for_the_same_are_found_both_ways() {
    let folder = Folder::new();
    let cyrillic = "\u{43f}\u{440}\u{438}\u{432}\u{435}\u{442}";
    let store = home(&folder, &["r\u{e9}serve", "reserve", cyrillic]);
    for words in ["reser", "r\u{e9}ser", "RESERVE"] {
        assert_eq!(found(&store, words), ["KM-001", "KM-000"], "{words}");
    }
    assert_eq!(found(&store, "\u{41f}\u{420}\u{418}\u{412}"), ["KM-002"]);
}

#[test]
fn a_beginning_of_more_words_than_are_named_is_left_to_the_index() {
    let folder = Folder::new();
    let texts: Vec<String> = (0..300).map(|number| format!("part{number:03}")).collect();
    let store = home(&folder, &texts.iter().map(String::as_str).collect::<Vec<_>>());
    assert_eq!(store.read().question("part").unwrap().unwrap(), "\"part\"*");
    assert_eq!(found(&store, "part").len(), 50);
    assert_eq!(found(&store, "part29").len(), 10);
}

/// A page is read from the end of the index's lists, and nothing is put in order first.
#[test]
fn a_page_of_a_search_is_read_in_the_order_of_the_index() {
    let folder = Folder::new();
    let store = home(&folder, &["drinking water"; 3]);
    let plan_of = |sql: &str, value: &str| -> Vec<String> {
        let mut statement = store.conn.prepare(&format!("EXPLAIN QUERY PLAN {sql}")).unwrap();
        statement.query_map([value], |row| row.get(3)).unwrap().collect::<Result<_, _>>().unwrap()
    };
    for words in ["drinking", "dri", "drinking water"] {
        let question = store.read().question(words).unwrap().unwrap();
        let sql = "SELECT records.id FROM record_words CROSS JOIN records ON records.id = record_words.rowid
            WHERE record_words MATCH ?1 ORDER BY record_words.rowid DESC LIMIT 51";
        let plan = plan_of(sql, &question);
        assert_eq!(plan.len(), 2, "{plan:?}");
        assert!(plan[0].starts_with("SCAN record_words VIRTUAL TABLE INDEX"), "{plan:?}");
        assert!(plan[1].contains("USING INTEGER PRIMARY KEY"), "{plan:?}");
    }
    // Neither are the words of the account looked through: each is the first behind the one before.
    let plan = plan_of("SELECT term FROM temp.search_terms WHERE term >= ?1 ORDER BY term LIMIT 1", "a");
    assert_eq!(plan.len(), 1, "{plan:?}");
    assert_ne!(plan[0], "SCAN search_terms VIRTUAL TABLE INDEX 0:", "{plan:?}");
}

#[test]
fn a_record_is_found_by_its_words_after_the_write_whatever_was_done_in_it() {
    let folder = Folder::new();
    let mut store = home(&folder, &["first"]);
    let (one, two) = (row(1), row(2));
    store
        .write(|tx| {
            for row in [&one, &two] {
                let bare = RecordRow { tag: None, device: None, ..row.clone() };
                tx.put_record(&new(&bare, &bytes_of("seal", row.digest), None, "early"))?;
            }
            // The first is completed before its words were indexed.
            let (seal, body) = (bytes_of("seal", one.digest), bytes_of("body", one.digest));
            tx.put_record(&new(&one, &seal, Some(&body), "second"))
        })
        .unwrap();
    assert_eq!(found(&store, "second"), ["KM-001"]);
    assert_eq!(found(&store, "early"), ["KM-002"]);
    assert_eq!(store.read().check().unwrap(), [""; 0]);
    // What is not written leaves nothing behind.
    let refused = store.write(|tx| {
        let three = row(3);
        tx.put_record(&new(&three, &bytes_of("seal", three.digest), None, "third"))?;
        Err::<(), StoreError>(StoreError::Unfit { what: "no".into() })
    });
    assert!(refused.is_err());
    assert_eq!(found(&store, "third"), [""; 0]);
}
