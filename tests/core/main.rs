mod printers;
mod units;
