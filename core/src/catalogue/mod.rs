//! Generic kits and paints: data, no makers' names. Every figure says where it comes from.
