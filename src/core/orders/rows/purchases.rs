//! What is bought for an order at one glance: a row a fabric and colour.

use crate::compute::Number;
use crate::orders::figures::Chain;
use crate::words::{Phrase, words};

use super::plan::colour_name;
use crate::rows::article::value;
use crate::rows::cell::Cell;
use crate::rows::data::Purchases;
use crate::rows::view::View;

words! {
    FABRIC "purchases.fabric" = "Fabric";
    COLOUR "purchases.colour" = "Colour";
    SUPPLIER "purchases.supplier" = "Supplier";
    ARTICLE "purchases.article" = "Article";
    WIDTH "purchases.width" = "Full width";
    CUTTABLE "purchases.cuttable" = "Cuttable width";
    NEEDED "purchases.needed" = "Needed as delivered, m";
    ORDER "purchases.order" = "To order, m";
    ROLLS "purchases.rolls" = "Rolls";
    MASS "purchases.mass" = "Mass, kg";
    MINIMUM "purchases.minimum" = "Minimum order";
    LEFT "purchases.left" = "Left over, m";
    LEAD_TIME "purchases.lead-time" = "Lead time";
}

/// The list of what is bought.
pub fn purchases(view: &View<'_>, chains: &[Chain]) -> Purchases {
    let columns =
        [FABRIC, COLOUR, SUPPLIER, ARTICLE, WIDTH, CUTTABLE, NEEDED, ORDER, ROLLS, MASS, MINIMUM, LEFT, LEAD_TIME];
    Purchases {
        columns: columns.map(Phrase::from).to_vec(),
        rows: chains.iter().map(|chain| row(view, chain)).collect(),
    }
}

fn row(view: &View<'_>, chain: &Chain) -> Vec<Cell> {
    let article = view.model.articles.get(&chain.bought.article);
    let stated = |key: &str| {
        let text = article.map_or_else(Phrase::none, |article| value(view, article, key));
        if text.is_empty() { Cell::Dash } else { text.into() }
    };
    let steps = chain.steps.known();
    let length = |of: Option<Number>| of.map_or(Cell::Dash, |mm| Cell::fixed(Number::new(mm.get() / 1000.0), 3, ""));
    let mass = steps.map_or(Cell::Dash, |steps| {
        Cell::figure(&steps.mass, |grams| Cell::fixed(Number::new(grams.get() / 1000.0), 1, ""))
    });
    let colour = colour_name(view, &chain.bought);
    vec![
        view.material(&chain.bought.article).into(),
        if colour.is_empty() { Cell::Dash } else { colour.into() },
        stated("supplier"),
        stated("article"),
        stated("width"),
        stated("cuttable-width"),
        length(steps.map(|steps| steps.needed)),
        length(steps.map(|steps| steps.bought)),
        steps.and_then(|steps| steps.rolls_bought).map_or(Cell::Dash, Cell::count),
        mass,
        stated("minimum-order"),
        length(steps.map(|steps| steps.surplus)),
        stated("lead-time"),
    ]
}
