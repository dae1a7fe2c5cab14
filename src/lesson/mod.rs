//! lesson
