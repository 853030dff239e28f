mod geom;
mod printers;
mod standards;
mod units;
mod words;
