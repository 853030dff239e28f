mod printers;
