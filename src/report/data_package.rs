//! `datapackage.json`: the CSV files of an output described for programs, as a Tabular Data Package (Frictionless Data,
//! specification version 1), from the same columns that fill them.

use super::tables::{Column, Kind};
use serde::Serialize;

/// The file that describes the CSV files beside it.
pub const FILE: &str = "datapackage.json";

#[derive(Serialize)]
struct Package<'a> {
    profile: &'static str,
    name: &'static str,
    resources: Vec<Resource<'a>>,
}

#[derive(Serialize)]
struct Resource<'a> {
    profile: &'static str,
    name: &'a str,
    path: &'a str,
    format: &'static str,
    mediatype: &'static str,
    encoding: &'static str,
    schema: Schema,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Schema {
    fields: Vec<Described>,
    missing_values: [&'static str; 1],
}

#[derive(Serialize)]
struct Described {
    name: &'static str,
    #[serde(rename = "type")]
    kind: &'static str,
    description: String,
}

/// The description of these tables, each a path and its columns.
pub fn describe(tables: &[(&str, &[Column])]) -> Result<Vec<u8>, serde_json::Error> {
    let resources = tables.iter().map(|(path, columns)| Resource {
        profile: "tabular-data-resource",
        name: path.trim_end_matches(".csv"),
        path,
        format: "csv",
        mediatype: "text/csv",
        encoding: "utf-8",
        schema: Schema { fields: columns.iter().map(described).collect(), missing_values: [""] },
    });
    let package = Package {
        profile: "tabular-data-package",
        name: env!("CARGO_PKG_NAME"),
        resources: resources.collect(),
    };
    let mut bytes = serde_json::to_vec_pretty(&package)?;
    bytes.push(b'\n');
    Ok(bytes)
}

fn described(column: &Column) -> Described {
    let kind = match column.kind {
        Kind::Text => "string",
        Kind::Count => "integer",
        Kind::Money | Kind::Hours | Kind::Percent => "number",
        Kind::Date => "date",
    };
    let description = match column.kind {
        Kind::Money | Kind::Hours | Kind::Percent => format!("{} ({})", column.about, column.kind.words()),
        Kind::Text | Kind::Count | Kind::Date => column.about.to_owned(),
    };
    Described { name: column.name, kind, description }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::tables::{claims, lines};

    #[test]
    fn every_column_is_a_field_of_its_table_in_order_with_a_type_of_the_specification() {
        let tables: [(&str, &[Column]); 2] = [("claims.csv", claims::COLUMNS), ("lines.csv", lines::COLUMNS)];
        let package: serde_json::Value = serde_json::from_slice(&describe(&tables).unwrap()).unwrap();
        for (index, (path, columns)) in tables.iter().enumerate() {
            let resource = &package["resources"][index];
            assert_eq!(resource["path"], *path);
            let fields = resource["schema"]["fields"].as_array().unwrap();
            let names: Vec<&str> = fields.iter().map(|field| field["name"].as_str().unwrap()).collect();
            assert_eq!(names, columns.iter().map(|column| column.name).collect::<Vec<_>>());
        }
        let kind = |table: usize, name: &str| {
            let fields = package["resources"][table]["schema"]["fields"].as_array().unwrap();
            fields.iter().find(|field| field["name"] == name).unwrap()["type"].clone()
        };
        assert_eq!(kind(0, "claim"), "string");
        assert_eq!(kind(0, "date of loss"), "date");
        assert_eq!(kind(0, "gross"), "number");
        assert_eq!(kind(1, "line"), "integer");
        assert_eq!(kind(1, "hours"), "number");
    }
}
