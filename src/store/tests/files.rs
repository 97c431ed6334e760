//! Files are written whole or not at all, and read up to a bound.

use std::fs;
use std::path::{Path, PathBuf};

use store::files::{FileFault, free_name, read, read_written, write_new, write_whole};

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimebench-files-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn a_file_is_written_over_and_nothing_stays_beside_it() {
    let folder = folder("over");
    let path = folder.join("one.txt");
    for text in ["first", "second and longer"] {
        write_whole(&path, text).expect("written");
        assert_eq!(read(&path).expect("there"), text);
    }
    assert_eq!(fs::read_dir(&folder).expect("a folder").count(), 1);
    assert!(write_whole(&folder.join("no such").join("one.txt"), "text").is_err());
    fs::remove_dir_all(folder).expect("removed");
}

#[cfg(unix)]
#[test]
fn behind_a_link_the_file_is_written_that_it_points_to() {
    let folder = folder("link");
    let (path, link) = (folder.join("one.txt"), folder.join("link.txt"));
    fs::write(&path, "first").expect("written");
    std::os::unix::fs::symlink(&path, &link).expect("a link");
    write_whole(&link, "second").expect("written");
    assert_eq!(fs::read_to_string(&path).expect("there"), "second");
    assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
    let nowhere = folder.join("new.txt");
    std::os::unix::fs::symlink(folder.join("gone"), &nowhere).expect("a link");
    assert_eq!(free_name(&folder, "new", ".txt"), folder.join("new-2.txt"));
    fs::remove_dir_all(folder).expect("removed");
}

#[cfg(target_os = "linux")]
#[test]
fn what_never_ends_is_not_read_to_its_end() {
    assert_eq!(read(Path::new("/dev/zero")), Err(FileFault::TooLong { most: 16 * 1024 * 1024 }));
    assert_eq!(read_written(Path::new("/dev/zero")), Err(FileFault::TooLong { most: 1024 * 1024 }));
    assert!(write_whole(Path::new("/dev/full"), "text").is_err());
    assert!(!Path::new("/dev").join(format!("full.{}.part", std::process::id())).exists());
}

#[test]
fn what_is_no_text_is_refused() {
    let folder = folder("bytes");
    let path = folder.join("one");
    fs::write(&path, [0xff, 0xfe, 0x00]).expect("written");
    assert_eq!(read(&path), Err(FileFault::NoText));
    fs::write(&path, "\u{feff}(version: 1)").expect("written");
    assert_eq!(read(&path).expect("a text"), "(version: 1)");
    fs::remove_dir_all(folder).expect("removed");
}

/// Many programs that want the same name at once get one each.
#[test]
fn a_new_file_has_a_name_of_its_own_and_leaves_nothing_beside_it() {
    let folder = folder("new");
    let texts: Vec<String> = (0..8).map(|number| format!("text {number}")).collect();
    let mut paths: Vec<PathBuf> = std::thread::scope(|scope| {
        let writing: Vec<_> = texts
            .iter()
            .map(|text| scope.spawn(|| write_new(&folder, "same", ".txt", text).expect("written")))
            .collect();
        writing.into_iter().map(|thread| thread.join().expect("whole")).collect()
    });
    paths.sort();
    paths.dedup();
    assert_eq!(paths.len(), texts.len());
    let mut read: Vec<String> = paths.iter().map(|path| fs::read_to_string(path).expect("there")).collect();
    read.sort();
    assert_eq!(read, texts);
    assert_eq!(
        fs::read_dir(&folder).expect("a folder").count(),
        texts.len(),
        "something was left beside them"
    );
    fs::remove_dir_all(folder).expect("removed");
}
