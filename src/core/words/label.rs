//! Labels that only the sheets of a package print: small heads, blanks to fill in, running lines.

super::words! {
    DOCUMENT_NUMBER "document-number" = "Identification no.", "文件编号";
    LANGUAGE "language" = "Lang.", "语言";
    SHEET "sheet" = "Sheet", "页码";
    OF "of" = "of";
    CONTINUED "continued" = "continued", "续";
    CONTENTS "contents" = "Sheets", "目录";
    ASSORTMENT "assortment" = "Sizes and colourways", "尺码与配色";
    COLOURWAY "colourway" = "Colourway", "配色";
    SAFETY "safety" = "Safety", "安全";
    CAUTION "caution" = "What to mind";
    FOLLOWS "follows" = "What it follows";
    FRONT_MISSING "front-missing" = "Front view: still to come", "正面图待补";

    CONCERNS "concerns" = "Sheet and item", "页与项目";
    CALLOUTS "callouts" = "What the numbers name", "编号说明";
    FACTORY_USE "factory-use" = "Use", "单耗";
    CODE "code" = "Code", "代号";
    GRAIN_AND_PILE "grain-and-pile" = "Grain and pile", "布纹与毛向";
    SHAPE_BY_FACTORY "shape-by-factory" = "Shape by the factory", "由工厂打版";
    PRINT_CHECK "print-check" = "50 mm on paper: measure it before scaling from a print";
    WHAT_TO_DO "what-to-do" = "What to do", "操作";
    STACK_DRAWN "stack-drawn" = "Seam cut through, needle from above; not to scale";
    PLIES "plies" = "Plies, from the needle down";
    LETTER "letter" = "Letter", "字母";
    SEAM_STEP "seam-step" = "Seam, step";
    FIRST_SIDE "first-side" = "First side";
    SECOND_SIDE "second-side" = "Second side";
    STRETCH "stretch" = "From and to";
    DIFFERENCE "difference" = "Difference", "差";
    SIZES_NESTED "sizes-nested" = "Sizes over each other, cut lines";
    LENGTHS_TABLE "lengths-table" = "Lengths at every seam";
    WEIGHED "weighed" = "Weighed", "实称";

    CRITICAL_POINT "critical-point" = "Critical", "关键";
    CRITICAL_NOTE "critical-note" = "A reading outside the limits of a critical point rejects the product.";
    READINGS "readings" = "Readings, piece by piece", "逐件实测";
    MEASURED_BY "measured-by" = "Measured by", "测量人";
    LOT "lot" = "Lot", "批号";

    PLEASE_CONFIRM "please-confirm" = "Please confirm", "请确认";
    REQUIRED "required" = "Required before the next stage";
    THERE "there" = "There", "已备";
    SIGNED_FOR "signed-for" = "Signed for", "签署内容";
}
