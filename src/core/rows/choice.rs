//! Words that a file may choose, such as the kind of a sample, the state of a comment or what a step does, as sheets
//! print them.

use crate::words::{Phrase, Word, words};

words! { list:
    PROTOTYPE "choice.prototype" = "prototype";
    COUNTER_SAMPLE "choice.counter-sample" = "counter sample";
    SALES_SAMPLE "choice.sales-sample" = "sales sample";
    PRE_PRODUCTION "choice.pre-production" = "pre-production";
    PRE_PRODUCTION_SAMPLE "choice.pre-production-sample" = "pre-production sample";
    TOP_OF_PRODUCTION "choice.top-of-production" = "top of production";
    LABORATORY_SAMPLE "choice.laboratory-sample" = "laboratory sample";
    KEEP_SAMPLE "choice.keep-sample" = "keep sample";
    BULK "choice.bulk" = "bulk";
    REAL "choice.real" = "real";
    SUBSTITUTE "choice.substitute" = "substitute";
    MUST_CHANGE "choice.must-change" = "must change";
    SHOULD_CHANGE "choice.should-change" = "should change";
    NOTE "choice.note" = "note";
    OPEN "choice.open" = "open";
    ANSWERED "choice.answered" = "answered";
    AGREED "choice.agreed" = "agreed";
    CORRECT_IN_BULK "choice.correct-in-bulk" = "correct in bulk";
    DROPPED "choice.dropped" = "dropped";
    OUTSTANDING "choice.outstanding" = "outstanding";
    APPROVED "choice.approved" = "approved";
    WITH_CORRECTIONS "choice.approved-with-corrections" = "approved with corrections";
    REJECTED "choice.rejected" = "rejected";
    FABRIC "choice.fabric" = "fabric";
    TRIM "choice.trim" = "trim";
    LAB_DIP "choice.lab-dip" = "lab dip";
    BULK_COLOUR "choice.bulk-colour" = "bulk colour";
    STRIKE_OFF "choice.strike-off" = "strike-off";
    PRINT "choice.print" = "print";
    ARTWORK "choice.artwork" = "artwork";
    CARTON "choice.carton" = "carton";
    SAMPLE "choice.sample" = "sample";
    CHANGE_IN_COLOUR "choice.change-in-colour" = "change in colour";
    STAINING "choice.staining" = "staining";
    RUBBING_DRY "choice.rubbing-dry" = "rubbing, dry";
    RUBBING_WET "choice.rubbing-wet" = "rubbing, wet";
    LEFT "choice.left" = "left";
    RIGHT "choice.right" = "right";
    TURN "choice.turn" = "turn";
    FILL "choice.fill" = "fill";
    INSERT "choice.insert" = "insert";
    EMBROIDER "choice.embroider" = "embroider";
    CLIP "choice.clip" = "clip";
    BRUSH "choice.brush" = "brush";
    DETECT "choice.detect" = "detect";
    BAG "choice.bag" = "bag";
    PACK "choice.pack" = "pack";
    METHOD "choice.method" = "method";
    SPREAD "choice.spread" = "spread";
    GAP "choice.gap" = "gap";
    END "choice.end" = "end";
    PLIES "choice.plies" = "plies";
    HAND_KNIFE "choice.hand-knife" = "hand knife";
    ONE_WAY "choice.one-way" = "one way";
}

/// A choice as it is printed; the user's own word stays as it is.
pub fn said(choice: &str) -> Phrase {
    among(ALL, choice)
}

/// The word of a list that reads like this in English; else the text itself.
pub fn among(list: &[Word], text: &str) -> Phrase {
    list.iter().find(|word| word.en == text).map_or_else(|| text.into(), Phrase::from)
}

/// The same where it begins a line.
pub fn begun(choice: &str) -> Phrase {
    if choice.is_empty() { Phrase::none() } else { said(choice).capital() }
}
