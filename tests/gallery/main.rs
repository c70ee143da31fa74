//! Spreadsheets as people write them: what each is read as, or exactly what is asked. All of it is invented.

#[cfg(test)]
mod said;

#[cfg(test)]
mod sheets {
    use super::said::said;
    use std::fs;
    use std::path::Path;

    /// Every sheet of the folder has its golden file: a sheet that is added without one fails.
    #[test]
    fn every_sheet_of_the_gallery_is_read_as_its_golden_file_says() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/gallery/sheets");
        let mut names: Vec<String> = fs::read_dir(&folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        let count = names.len();
        insta::with_settings!({ snapshot_path => "goldens", prepend_module_to_snapshot => false, omit_expression => true }, {
            for name in names {
                insta::assert_snapshot!(name.clone(), said(&folder.join(&name)));
            }
        });
        assert!(count >= 40, "{count} sheets");
    }
}
