//! What the folder of a file says of it: private, of an order, of samples.

/// Whether a file lies below a folder `private`, so that only the own edition holds it.
pub fn is_private(path: &str) -> bool {
    path.split('/').any(|part| part.eq_ignore_ascii_case("private"))
}

/// Whether a file lies below a folder `orders`, so that it is no part of the specification.
pub fn is_order(path: &str) -> bool {
    let mut folders = path.split('/');
    folders.next_back();
    folders.any(|part| part.eq_ignore_ascii_case("orders"))
}

/// Whether a file lies below a folder `samples`, so that it is no part of the specification.
pub fn is_sample(path: &str) -> bool {
    let mut folders = path.split('/');
    folders.next_back();
    folders.any(|part| part.eq_ignore_ascii_case("samples"))
}
