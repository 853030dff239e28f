mod geom;
mod printers;
mod read;
mod revision;
mod standards;
mod units;
mod words;
