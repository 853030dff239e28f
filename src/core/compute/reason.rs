//! Why a figure is not known, and what it is a figure of.

use crate::words::{Phrase, say, words};

words! {
    NO_ARTICLE "reason.no-article" = "there is no article {article}";
    NO_ARTICLE_IN_COLOURWAY "reason.no-article-in-colourway" = "{material} is no article in colourway {colourway}";
    NO_PIECE "reason.no-piece" = "there is no piece {piece}";
    NO_SUCH_PIECE "reason.no-such-piece" = "a seam names a piece that is not there";
    NO_CUT "reason.no-cut" = "{piece} has no cut";
    NO_SUCH_CUT "reason.no-such-cut" = "{piece} has no cut {cut}";
    NO_CUT_LINE "reason.no-cut-line" = "{piece} {cut} has no cut line";
    NO_EDGE "reason.no-edge" = "{piece} has no such edge";
    NO_OUTLINE "reason.no-outline" = "{piece} has no outline";
    NO_OUTLINE_IN_SIZE "reason.no-outline-in-size" = "{piece} has no outline in size {size}";
    PATTERN_BY_FACTORY "reason.pattern-by-factory" = "the pattern of {piece} is the factory's to make";
    DRAWING_UNREAD "reason.drawing-unread" = "the drawing of {piece} cannot be read";
    OUTLINE_UNMADE "reason.outline-unmade" = "the outline of {piece} cannot be made";
    OTHER_POINTS "reason.other-points" = "the outline of {piece} in size {size} has other points";
    NOT_OFFSET "reason.not-offset" = "{cut} of {piece} cannot be offset";
    EDGES_UNKNOWN "reason.edges-unknown" = "the edges of {title} are not known";
    EDGE_UNKNOWN "reason.edge-unknown" = "the edge of {title} is not known";
    LINE_UNKNOWN "reason.line-unknown" = "the line of {title} is not known";
    TURNS_UNKNOWN "reason.turns-unknown" = "how often {title} is turned is not known";
    NO_TOLERANCE "reason.no-tolerance" = "no tolerance is stated for {what}";
    LIMITS_CROSS "reason.limits-cross" = "no readable value of {title} lies inside its tolerance";
    UNUSABLE_STEP "reason.unusable-step" = "the step of {title} cannot be used";
    DIGITS_OF "reason.digits-of" = "{title} has more digits than can be held";
    DIGITS "reason.digits" = "it has more digits than can be held";
    NO_RATIO "reason.no-ratio" = "no thread ratio is published for stitch type {stitch}";
    WASTAGE_OF_THREAD "reason.wastage-of-thread" = "the wastage of {article} is not stated ({least} to {most} % are usual)";
    NOTHING_CUT "reason.nothing-cut" = "nothing is cut from {article}";
    NO_SUCH_LAY "reason.no-such-lay" = "there is no such lay";
    NOT_LAID "reason.not-laid" = "{lay} is not laid yet";
    SEVERAL_SIZES "reason.several-sizes" = "several sizes lie on it";
    NOT_LAID_FREELY "reason.not-laid-freely" = "it is not laid freely";
    NO_LAY_YET "reason.no-lay-yet" = "there is no lay yet";
    PLIES_AT_ONCE "reason.plies-at-once" = "how many plies of {fabric} are cut at once is not stated";
    NOT_SHOWN "reason.not-shown" = "it is not shown in this edition";
}

words! {
    COUNT_OF "of.count" = "the count of {piece} {cut}";
    ALLOWANCE_OF "of.allowance" = "the allowance of {piece} {cut}";
    INSIDE_OF "of.inside" = "how far inside {piece} {cut} is cut";
    MATERIAL_OF "of.material" = "the material of {of}";
    FILLING_MASS_OF "of.filling-mass" = "the filling mass of {title}";
    FILLING_OF "of.filling" = "the filling of {title}";
    CHECK_OF "of.filling-check" = "how the filling of {title} is checked";
    MASS_PER_AREA_OF "of.mass-per-area" = "the mass per area of {title}";
    PROPERTY_OF "of.property" = "{key} of {title}";
    THE_PROPERTY_OF "of.the-property" = "the {key} of {title}";
    IT "of.it" = "it";
    STATE_OF "of.state" = "the state in which {title} is measured";
    TARGET_OF "of.target" = "the target of {title}";
    STEP_OF "of.step" = "the step of {title}";
    DIFFERENCE_OF "of.difference" = "the largest difference of {title}";
    NOTCH_DEPTH "of.notch-depth" = "the depth of notches";
    EASE_OF "of.ease" = "the ease of {title}";
    RATIO_OF "of.ratio" = "the ratio of {title}";
    STITCH_TYPE_OF "of.stitch-type" = "the stitch type of {title}";
    DENSITY_OF "of.stitch-density" = "the stitch density of {title}";
    STITCH_WIDTH_OF "of.stitch-width" = "the width of the stitch of {title}";
    THREAD_LENGTH_OF "of.thread-length" = "the length of a thread of {title}";
    THREAD_OF "of.thread" = "the thread of {title}";
    TRIM_OF "of.trim" = "the trim of {title}";
    TRIM_RATIO_OF "of.trim-ratio" = "the ratio of the trim in {title}";
    TRIM_LAPS_OF "of.trim-laps" = "the laps of the trim in {title}";
    USE_OF "of.use" = "the use of {title}";
    BLOCK_WIDTH_OF "of.block-width" = "the block width of {piece}";
    BLOCK_HEIGHT_OF "of.block-height" = "the block height of {piece}";
    BLOCK_WIDTH "of.the-block-width" = "the width of the block";
    BLOCK_HEIGHT "of.the-block-height" = "the height of the block";
}

/// No article of this id.
pub(crate) fn no_article(article: &str) -> Phrase {
    say!(NO_ARTICLE, article)
}
