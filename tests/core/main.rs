mod geom;
mod printers;
mod units;
