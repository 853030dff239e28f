mod geom;
mod printers;
mod read;
mod revision;
mod scene;
mod standards;
mod units;
mod words;
