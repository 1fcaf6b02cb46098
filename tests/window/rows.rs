//! A model keeps what is on the screen while rows come, go and change.

use std::collections::BTreeSet;

use crate::typed_job::every_slot;
use slint::{Model, VecModel};
use strawblue::app::rows::{model, sync};
use strawblue::app::ui::{FieldRow, FormRow, PartRow};
use strawblue::app::{Button, Kept, NoRow, Page, RowId, SteelId};
use strum::IntoEnumIterator;

fn field(id: &str, text: &str) -> FieldRow {
    FieldRow { id: id.into(), text: text.into(), ..FieldRow::default() }
}

fn form(id: &str, fields: Vec<FieldRow>) -> FormRow {
    let part = PartRow { id: "figures".into(), fields: model(fields), ..PartRow::default() };
    FormRow { id: id.into(), parts: model(vec![part]), ..FormRow::default() }
}

#[test]
fn a_field_keeps_its_models_while_its_text_changes() {
    let shown = VecModel::from(vec![form("steel", vec![field("a", "9")])]);
    let before = shown.row_data(0).expect("one row");
    sync(&shown, vec![form("steel", vec![field("a", "90")])]);
    let after = shown.row_data(0).expect("one row");
    assert!(before.parts == after.parts, "the parts are the same model");
    let part = after.parts.row_data(0).expect("one part");
    assert!(before.parts.row_data(0).expect("one part").fields == part.fields, "so are the fields");
    assert_eq!(part.fields.row_data(0).expect("one field").text, "90");
}

#[test]
fn rows_come_and_go_where_they_belong() {
    let shown = VecModel::from(vec![field("a", ""), field("b", ""), field("c", "")]);
    sync(&shown, vec![field("c", "1"), field("d", "2")]);
    let ids: Vec<_> = shown.iter().map(|row| row.id.to_string()).collect();
    assert_eq!(ids, ["c", "d"]);
    sync(&shown, vec![field("x", ""), field("c", "1"), field("y", ""), field("d", "3")]);
    let texts: Vec<_> = shown.iter().map(|row| (row.id.to_string(), row.text.to_string())).collect();
    assert_eq!(texts, [("x", ""), ("c", "1"), ("y", ""), ("d", "3")].map(|(a, b)| (a.into(), b.into())));
}

#[test]
fn the_id_of_a_row_is_read_as_it_is_made() {
    let mut rows: Vec<RowId> = every_slot().into_iter().map(RowId::Slot).collect();
    rows.extend([0, 1].map(RowId::Temper));
    rows.extend([RowId::HydrogenClass(0), RowId::HydrogenClass(12), RowId::HeatWay]);
    rows.extend(Button::iter().map(RowId::Button));
    rows.extend(Kept::iter().map(RowId::Tint));
    for question in strawblue::questions::ALL {
        rows.push(RowId::Question(question.name.to_owned()));
        let inputs = question.inputs.iter();
        rows.extend(inputs.map(|input| RowId::Question(format!("{}.{}", question.name, input.key))));
    }
    rows.extend(rows.clone().into_iter().map(|row| RowId::Folded(Box::new(row))));
    let mut ids = BTreeSet::new();
    for row in rows {
        let id = row.to_string();
        assert_eq!(id.parse(), Ok(row), "{id}");
        assert!(ids.insert(id.clone()), "{id} stands for two rows");
    }
    for unknown in [
        "",
        "thick",
        "list:",
        "hydrogen-",
        "hydrogen-x",
        "hydrogen-1",
        "temper:thick",
        "button:press",
        "tint.no",
    ] {
        assert_eq!(unknown.parse::<RowId>(), Err(NoRow), "{unknown}");
    }
}

#[test]
fn a_page_is_read_as_it_is_named() {
    for page in Page::iter() {
        assert_eq!(page.id().parse(), Ok(page));
    }
}

#[test]
fn the_id_of_a_steel_is_read_as_it_is_made() {
    for steel in [SteelId::Grade("34CrMo4"), SteelId::Own("Boss bar, Ø90"), SteelId::Own("own:x")] {
        assert_eq!(SteelId::read(&steel.to_string()), steel);
    }
}
