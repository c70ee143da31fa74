//! Documents: what they say, how they are drawn, and what hostile texts do to them.

#[cfg(test)]
#[path = "documents/claim_workbook.rs"]
mod claim_workbook;
#[cfg(test)]
#[path = "documents/escaping.rs"]
mod escaping;
#[cfg(test)]
#[path = "documents/figures.rs"]
mod figures;
#[cfg(test)]
#[path = "documents/fixture/mod.rs"]
mod fixture;
#[cfg(test)]
#[path = "documents/goldens.rs"]
mod goldens;
#[cfg(test)]
#[path = "documents/headlines.rs"]
mod headlines;
#[cfg(test)]
#[path = "documents/languages.rs"]
mod languages;
#[cfg(test)]
#[path = "documents/markup.rs"]
mod markup;
#[cfg(test)]
#[path = "documents/offer.rs"]
mod offer;
#[cfg(test)]
#[path = "documents/owner_sheet.rs"]
mod owner_sheet;
#[cfg(test)]
#[path = "documents/panel_figure.rs"]
mod panel_figure;
#[cfg(test)]
#[cfg(feature = "pdf")]
#[path = "documents/pdf.rs"]
mod pdf;
#[cfg(test)]
#[path = "documents/words.rs"]
mod words;
#[cfg(test)]
#[path = "documents/work_order.rs"]
mod work_order;

/// Writes a page of each kind into the folder named by `STIPPLE_PAGES`, to be looked at in a browser: as they are, and on
/// A4 for those who print from a program that takes Letter.
#[test]
#[ignore = "writes files to look at; name a folder in STIPPLE_PAGES"]
fn pages_to_look_at() {
    let folder = std::path::PathBuf::from(std::env::var_os("STIPPLE_PAGES").unwrap());
    for (name, html) in fixture::every_page() {
        std::fs::write(folder.join(format!("{name}-a4.html")), html.replace("@page{", "@page{size:A4;"))
            .unwrap();
        std::fs::write(folder.join(format!("{name}.html")), html).unwrap();
    }
}
