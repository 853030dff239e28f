//! Titles of the sheets: the trade's name for bookmarks, and what the sheet is for in its reader's words; and the
//! sentences that stand on one sheet only.

crate::words! { list:
    COVER "cover" = "Cover";
    GUIDE "guide" = "How to read this";
    GUIDE_TITLE "guide-title" = "What codes, signs and blanks mean, and which statement decides";
    COVER_TITLE "cover-title" = "What this is, and what it asks of you";
    VIEWS "views" = "Views";
    VIEWS_TITLE "views-title" = "What it looks like";
    BILL "bill" = "Bill of materials";
    BILL_TITLE "bill-title" = "What to buy";
    PIECES "pieces" = "Pieces";
    PIECES_TITLE "pieces-title" = "What to cut";
    CONSTRUCTION "construction" = "Construction";
    CONSTRUCTION_TITLE "construction-title" = "What to sew, in this order";
    MATCHING "matching" = "Seam matching";
    MATCHING_TITLE "matching-title" = "Which edge meets which, and how long they are";
    MATCHING_LEAD "matching-lead" = "One letter is one seam: edges that bear it are sewn to each other, arrowheads the same way. A stroke is the same seam on the other side; a number is the place of an edge in a row; what is caught bears the number of its edge. Pieces are seen from their right side. Lengths are on the sew line; the difference is second less first, unrounded, with the fullness in percent.";
    MARKER "marker" = "Marker (lay plan)";
    MARKER_TITLE "marker-title" = "How to lay the fabric";
    MARKER_LEAD "marker-lead" = "A bold arrow beside a lay runs along the roll, the way the pile or grain of all pieces lies; a thin arrow with two heads: the grain of all pieces runs so, either way round; without one each piece has its own. A stroke marks a mirrored piece, a half sign one that is cut on the fold.";
    PLAN "plan" = "Cut plan";
    PLAN_LEAD "plan-lead" = "Plies are numbered from the table up, bundles through the whole order of a fabric. A bundle is one product's pieces through some plies of one colour: pieces of one product stay together, so that their shade does.";
    PLAN_NOTE "plan-note" = "To cut, planned and surplus are those of all lines of one size and colourway, and are given at the first of them.";
    FABRIC_SHEET "fabric-sheet" = "Fabric to order";
    FABRIC_NOTE "fabric-note" = "Shrinkage and faults divide; percentages are never added. Recuts come from remnants of the same lot.";
    FABRIC_LEAD "fabric-lead" = "Each step takes the result of the one before; a pocket calculator gives the same. Lengths are whole millimetres: what is taken goes up, what there is goes down. Rolls are whole rolls.";
    FILLING "filling" = "Filling";
    FILLING_TITLE "filling-title" = "What to fill, and how it is weighed";
    MEASUREMENTS "measurements" = "Measurements";
    MEASUREMENTS_TITLE "measurements-title" = "What to measure";
    SAFETY "safety-sheet" = "Safety";
    SAFETY_TITLE "safety-title" = "What to take care of";
    SAFETY_LEAD "safety-lead" = "Cautions for this product, its materials and destinations. The laboratory answers the questions.";
    CHANGES "changes" = "Changes";
    CHANGES_TITLE "changes-title" = "What is new";
    CHANGES_LEAD "changes-lead" = "△ marks on the other sheets what changed. Outlines are laid over each other by their named points: dashed before, solid after. Long texts show only where they differ.";
    CHANGES_NONE "changes-none" = "Nothing differs from the last sealed revision.";
    SAMPLE "sample" = "Sample";
    SAMPLE_TITLE "sample-title" = "What was measured on the sample";
    SAMPLE_LEAD "sample-lead" = "Underlined readings are outside: ↑ above, ↓ below; = is on a limit, which is inside; ? is to be asked about and not judged.";
    COMMENTS_LEAD "comments-lead" = "What must change stops bulk until it is answered. What is put right in bulk is looked at inline, piece by piece, from the first hour on.";
    COMMENTS "comments" = "Comments and approvals";
    COMMENTS_TITLE "comments-title" = "What was said, and what became of it";
    CONFIRMATION "confirmation" = "Confirmation";
    CONFIRMATION_TITLE "confirmation-title" = "What to confirm and sign";
    QUESTIONS "questions" = "Questions";
    QUESTIONS_TITLE "questions-title" = "What is still open";

    PRECEDENCE_HEAD "precedence-head" = "If two things disagree";
    PRECEDENCE_ASK "precedence-ask" = "Ask before cutting. Until there is an answer, the first of these that speaks of it decides:";
    PRECEDENCE_1 "precedence-1" = "a deviation agreed in writing and named on the confirmation sheet";
    PRECEDENCE_2 "precedence-2" = "figures, limits and sentences on the sheets";
    PRECEDENCE_3 "precedence-3" = "drawings at a stated scale";
    PRECEDENCE_4 "precedence-4" = "the sealed sample, for hand, firmness and expression";
    PRECEDENCE_5 "precedence-5" = "pictures, which show the intent only";
    PRECEDENCE_LANGUAGE "precedence-language" = "The English text decides; a translation beside it helps to read it.";

    SIGNATURE_HEAD "signature-head" = "What a signature covers";
    SIGNATURE_COVERS "signature-covers" = "Every sheet of the revision whose digest is at the foot of this page: figures, limits, drawings and order of work.";
    SIGNATURE_EXCEPT "signature-except" = "Not covered are figures marked as an estimate, figures marked not known yet, and blanks that nobody filled in.";
    SIGNATURE_CHANGE "signature-change" = "A change after the signature is a new revision with a new digest, and is signed again.";

    NOT_FOR_MATCHING "not-for-matching" = "for the screen, not for matching";
    ESTIMATE "estimate" = "estimate: true cut area divided by a stated efficiency, not from a lay";
    ROUNDING "rounding" = "Totals come from unrounded values and may differ from the sum of the lines by their last digit.";
    MEASURE_INWARD "measure-inward" = "Limits are rounded inward to the step that can be read.";
    FILL_WEIGH "fill-weigh" = "Weigh portions before filling; check the finished mass against five empty shells.";
}
