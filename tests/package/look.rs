//! The page lint over a made-up package, plain and with strings that no honest user would type.

use backtack::render::engine::{EngineError, run};
use backtack::render::guard::SECONDS;
use backtack::render::lint::{lint, page_text};
use backtack::render::pdf::{Attachment, Extras, Rendered, TEMPLATES, job, render};
use backtack_core::rows::data::Sheet;
use backtack_core::rows::labels::labels;
use backtack_core::rows::package::Package;

use backtack_core::words::{Language, Languages};

use crate::{cushion, nasty};

fn extras() -> Extras {
    let figures = Attachment {
        name: "figures.json".into(),
        mime: "application/json".into(),
        description: "The figures this package was printed from".into(),
        data: b"{}".to_vec(),
    };
    Extras { pictures: cushion::pictures(), attachments: vec![figures], identity: "FC-2041".into(), seconds: SECONDS }
}

pub fn rendered(package: &Package) -> Result<Rendered, EngineError> {
    render(package, &extras())
}

#[test]
fn every_page_of_a_package_passes_the_lint() {
    let rendered = rendered(&cushion::package()).expect("the cushion typesets");
    assert_eq!(rendered.replaced, []);
    assert_eq!(lint(&rendered.document.pages()), []);
}

#[test]
fn every_page_carries_the_title_block_and_the_open_questions() {
    let rendered = rendered(&cushion::package()).expect("the cushion typesets");
    for page in rendered.document.pages() {
        let all: String = page.runs().map(|run| run.text.as_str()).collect();
        for wanted in ["SPEC-FC-2041", "3f9a1c07be", "Not released: 3 questions open (sheet 4)"] {
            assert!(all.contains(wanted), "`{wanted}` is missing from a page: {all}");
        }
    }
}

#[test]
fn strings_no_honest_user_would_type_stay_text_inside_the_frame() {
    let rendered = rendered(&nasty::package()).expect("strings are text, whatever they hold");
    let pages = rendered.document.pages();
    assert_eq!(lint(&pages), []);
    let all: String = pages.iter().flat_map(|page| page.runs()).map(|run| run.text.as_str()).collect();
    for wanted in [r#"#read("/etc/passwd")"#, "<script>alert(1)</script>", "=SUM(A1:A9)", "$x^2$"] {
        assert!(all.contains(wanted), "`{wanted}` did not come out as it was written");
    }
    let characters: Vec<char> = rendered.replaced.iter().map(|r| r.character).collect();
    assert!(characters.contains(&'🧵') && characters.contains(&'ש'), "replaced: {characters:?}");
    assert!(rendered.replaced.iter().all(|r| r.field.starts_with("sheets[") || r.field.starts_with("title_block.")));
}

#[test]
fn the_same_package_gives_the_same_bytes() {
    let once = rendered(&cushion::package()).expect("the cushion typesets").pdf;
    let again = rendered(&cushion::package()).expect("the cushion typesets").pdf;
    assert!(once == again, "two runs differ");
}

#[test]
fn long_tables_repeat_their_head_and_split_no_row() {
    let rendered = rendered(&nasty::long()).expect("a long package typesets");
    let pages = rendered.document.pages();
    assert_eq!(lint(&pages), []);
    let bill: Vec<_> = pages.iter().filter(|page| page.sheet == "bill").collect();
    assert!(bill.len() > 3, "200 rows take more than {} pages", bill.len());
    for page in bill {
        // A page has two columns, each with its head; the last page may need one only.
        let heads = page.runs().filter(|run| run.text.starts_with("Item")).count();
        let rows = page.runs().filter(|run| run.text.starts_with("upper")).count();
        assert!(heads == 2 || heads == 1 && rows <= 20, "{heads} heads over {rows} rows");
        let first = page.runs().filter(|run| run.text.starts_with("upper")).count();
        let second = page.runs().filter(|run| run.text.starts_with("lower")).count();
        assert_eq!(first, second, "a row was split");
    }
}

#[test]
fn as_many_columns_as_a_sheet_takes_fit() {
    let rendered = rendered(&nasty::wide()).expect("a wide package typesets");
    assert_eq!(lint(&rendered.document.pages()), []);
}

#[test]
fn an_error_names_the_template_and_the_line() {
    let (mut job, _) = job(&cushion::package(), &extras()).expect("the view data is JSON");
    job.files.insert("templates/sheets/bill.typ".into(), b"#let bill(sheet) = [\n#panic(\"no\")\n]".to_vec());
    let error = run(&job).expect_err("a template that panics");
    assert!(error.to_string().contains("templates/sheets/bill.typ:2"), "{error}");
}

#[test]
fn a_template_can_read_nothing_but_the_job() {
    for path in ["/etc/passwd", "../../secret", "/src/lib.rs"] {
        let (mut job, _) = job(&cushion::package(), &extras()).expect("the view data is JSON");
        job.files
            .insert("templates/sheets/bill.typ".into(), format!("#let bill(sheet) = read(\"{path}\")").into_bytes());
        assert!(run(&job).is_err(), "{path} was read");
    }
}

/// Templates print final strings: they evaluate nothing and compute nothing.
#[test]
fn templates_evaluate_and_compute_nothing() {
    for (name, text) in TEMPLATES {
        for banned in ["calc.", "eval(", "plugin(", "sys.inputs", "datetime.today"] {
            assert!(!text.contains(banned), "{name} uses {banned}");
        }
    }
}

#[test]
fn every_label_that_a_template_prints_has_its_wording() {
    let labels = labels(Languages::default());
    for (name, text) in TEMPLATES {
        for call in ["w(\"", "w-line(\"", "tick(\""] {
            for key in text.split(call).skip(1).filter_map(|rest| rest.split('"').next()) {
                assert!(labels.contains_key(key), "{name} prints `{key}`, which has no wording");
            }
        }
    }
}

#[test]
fn a_package_in_two_languages_passes_the_lint() {
    let mut package = cushion::package();
    package.languages = Languages::both(Language::English, Language::SimplifiedChinese);
    package.labels = labels(package.languages);
    let rendered = rendered(&package).expect("both languages are typeset");
    assert_eq!(rendered.replaced, []);
    let pages = rendered.document.pages();
    assert_eq!(lint(&pages), []);
    assert!(pages.iter().any(|page| page.runs().any(|run| run.text.contains("版次"))));
}

/// Where nothing is known yet, a group of a table has a head and no rows: first, last, in between, or all of them.
#[test]
fn groups_without_rows_are_typeset_wherever_they_are() {
    let full = cushion::package();
    for empty in 0..16_usize {
        let emptied = |at: usize| empty >> at & 1 == 1;
        let mut package = full.clone();
        package.sheets.retain_mut(|bound| match &mut bound.sheet {
            Sheet::Plan(plan) => {
                let group = plan.groups[0].clone();
                plan.groups = vec![group; 4];
                plan.groups.iter_mut().enumerate().filter(|(at, _)| emptied(*at)).for_each(|(_, one)| one.rows.clear());
                true
            }
            Sheet::Bill(bill) => {
                let group = bill.groups[0].clone();
                bill.groups = vec![group; 4];
                let groups = bill.groups.iter_mut().enumerate();
                groups.filter(|(at, _)| emptied(*at)).for_each(|(_, one)| one.articles.clear());
                true
            }
            Sheet::Changes(changes) => {
                let group = changes.groups[0].clone();
                changes.groups = vec![group; 4];
                let groups = changes.groups.iter_mut().enumerate();
                groups.filter(|(at, _)| emptied(*at)).for_each(|(_, one)| one.rows.clear());
                true
            }
            _ => false,
        });
        assert_eq!(package.sheets.len(), 3);
        let rendered = rendered(&package).unwrap_or_else(|error| panic!("{empty:b}: {error}"));
        assert_eq!(lint(&rendered.document.pages()), [], "{empty:b}");
    }
}

/// Heads inside a table are made in one place, which knows what the engine cannot take.
#[test]
fn heads_of_groups_are_made_in_one_place() {
    for (name, text) in TEMPLATES.iter().filter(|(name, _)| *name != "templates/theme.typ") {
        assert!(!text.contains("table.header(level"), "{name} makes the head of a group itself");
    }
}

#[test]
fn page_text_gives_runs_in_reading_order() {
    let rendered = rendered(&cushion::package()).expect("the cushion typesets");
    let text = page_text(&rendered.document.pages());
    let place = |wanted: &str| text.find(wanted).unwrap_or_else(|| panic!("`{wanted}` is not in the text"));
    assert!(place("== page 1 cover") < place("| Our style number"));
    assert!(place("| What to buy") < place("| Cotton canvas, top"));
}

/// One word chain: the variant and its template.
#[test]
fn every_sheet_has_its_template() {
    let rendered = rendered(&cushion::package()).expect("the cushion typesets");
    let kinds: std::collections::BTreeSet<String> =
        rendered.document.pages().into_iter().map(|page| page.sheet).collect();
    assert_eq!(kinds.len(), 21, "{kinds:?}");
    for kind in kinds {
        assert!(
            TEMPLATES.iter().any(|(name, _)| *name == format!("templates/sheets/{kind}.typ")),
            "{kind} has no template"
        );
    }
}
