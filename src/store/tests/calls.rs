//! The call of a record is found where it is, and another one of its name is not taken for it.

use std::fs;
use std::path::PathBuf;

use call::Call;
use store::calls::{CallError, CallFault, call, call_file, call_of};
use visit::CallName;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimebench-calls-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn not_here(named: &CallName) -> Result<Call, CallError> {
    Err(CallError::Fault(CallFault::NotHere { name: named.id.clone() }))
}

fn another(named: &CallName) -> Result<Call, CallError> {
    Err(CallError::Fault(CallFault::Another { name: named.id.clone() }))
}

#[test]
fn a_call_is_found_by_name_by_file_and_by_record() {
    let folder = folder("found");
    let (id, text) = call::built_in()[0];
    let built_in = call(id).expect("built in");
    assert_eq!(call_of(&CallName::of(&built_in), None, None).expect("found").digest(), built_in.digest());
    // A call of one's own, beside its record.
    let path = folder.join("mine.ron");
    fs::write(&path, format!("{text}\n// of our own\n")).expect("written");
    let mine = call_file(&path).expect("a call");
    let named = CallName::of(&mine);
    assert_eq!(named.id, "mine");
    assert_eq!(call_of(&named, Some(&folder), None).expect("beside"), mine);
    // Elsewhere, where it is known to be.
    let elsewhere = self::folder("elsewhere").join("mine.ron");
    fs::rename(&path, &elsewhere).expect("moved");
    assert_eq!(call_of(&named, Some(&folder), None), not_here(&named));
    assert!(call_of(&named, Some(&folder), Some(&elsewhere)).is_ok());
    // Under another name of its file it is the same call, and bears the name that the record has for it.
    let renamed = folder.join("other.ron");
    fs::copy(&elsewhere, &renamed).expect("copied");
    assert_eq!(call_of(&named, None, Some(&renamed)).expect("found"), mine);
    // Changed since.
    fs::write(&path, format!("{text}\n// changed\n")).expect("written");
    assert_eq!(call_of(&named, Some(&folder), None), another(&named));
    // Under the name of a built-in one it is not taken for it, but where it is known to lie.
    let beside = folder.join(format!("{id}.ron"));
    fs::write(&beside, format!("{text}\n// ours\n")).expect("written");
    let ours = CallName::of(&call_file(&beside).expect("a call"));
    assert_eq!(call_of(&ours, Some(&folder), None), another(&ours));
    assert!(call_of(&ours, Some(&folder), Some(&beside)).is_ok());
    fs::remove_dir_all(&folder).expect("removed");
}

/// A record can't name a file outside its folder.
#[test]
fn a_name_is_no_path() {
    for id in ["../secret", "/etc/passwd", "a/b", "..", "a\\..\\b"] {
        let named = CallName { id: id.to_owned(), digest: "0".to_owned() };
        assert!(
            matches!(
                call_of(&named, Some(&std::env::temp_dir()), None),
                Err(CallError::Fault(CallFault::NotHere { .. }))
            ),
            "{id}"
        );
    }
}
