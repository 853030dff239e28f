//! Labels that only the sheets of a package print: small heads, blanks to fill in, running lines.

crate::words! { list:
    FABRIC_LAID "fabric-laid" = "Fabric";
    DOCUMENT_NUMBER "document-number" = "Identification no.";
    SHEET "sheet" = "Sheet";
    SHEET_SCALED "sheet-scaled" = "Sheet, scale as stated";
    READERS "readers" = "For";
    PAGE "page" = "Page";
    CODES "codes" = "How copies and edges are written";
    SIGNS "signs" = "Signs";
    OF "of" = "of";
    CONTINUED "continued" = "continued";
    CONTENTS "contents" = "Sheets";
    COLOURWAY "colourway" = "Colourway";
    FOLLOWS "follows" = "Follows";
    FRONT_MISSING "front-missing" = "Front view: still to come";

    CONCERNS "concerns" = "Sheet and item";
    CALLOUTS "callouts" = "What the numbers name";
    FACTORY_USE "factory-use" = "Use";
    COLOUR_VALUES "colour-values" = "Colours";
    COLOUR_TARGET "colour-target" = "Target";
    CODE "code" = "Code";
    SHAPE_BY_FACTORY "shape-by-factory" = "Shape by the factory";
    PRINT_CHECK "print-check" = "50 mm on paper: measure it before scaling from a print";
    DIFFERS "differs" = "Differs:";
    CHECK_THIS "check-this" = "Check:";
    DO_NOT "do-not" = "Do not:";
    PUT_RIGHT "put-right" = "Put right:";
    LETTER "letter" = "Letter";
    FIRST_SIDE "first-side" = "First side";
    SECOND_SIDE "second-side" = "Second side";
    FIRST "first" = "First";
    SECOND "second" = "Second";
    DIFFERENCE "difference" = "Difference";
    WEIGHED "weighed" = "Weighed";

    CRITICAL_POINT "critical-point" = "Critical";
    CRITICAL_NOTE "critical-note" = "A reading outside the limits of a critical point rejects the product.";
    READINGS "readings" = "Readings, piece by piece";
    MEASURED_BY "measured-by" = "Measured by";
    LOT "lot" = "Lot";

    PLEASE_CONFIRM "please-confirm" = "Please confirm";
    REQUIRED "required" = "Required before the next stage";
    THERE "there" = "Received";
    APPROVED "approved" = "approved";
    BLANKS "blanks" = "Blanks on other sheets";
    DEVIATIONS "deviations" = "Deviations";
}
