//! One file a bug that was found and mended; its first line says what broke.

mod film_nobody_counted;
