//! Long work done piece by piece: the calls that every kind of it has.

/// Gives a type with `fn step(&mut self, most: u64, threads: bool) -> Result<bool, ParameterError>` its calls `advance`,
/// `advance_on_all_threads` and `finish`.
macro_rules! in_pieces {
    ($work:ty) => {
        impl $work {
            /// Works on, a piece of at most `most` droplets or one film laid; true when all is done.
            ///
            /// # Errors
            /// A set-up that cannot be flown, nothing on the part, a value out of a model's range, by its key.
            pub fn advance(&mut self, most: u64) -> Result<bool, $crate::error::ParameterError> {
                self.step(most.max(1), false)
            }

            /// The same on all threads where the crate has them.
            ///
            /// # Errors
            /// As of `advance`.
            pub fn advance_on_all_threads(
                &mut self,
                most: u64,
            ) -> Result<bool, $crate::error::ParameterError> {
                self.step(most.max(1), true)
            }

            /// Works to the end, on all threads where the crate has them.
            ///
            /// # Errors
            /// As of `advance`.
            pub fn finish(&mut self) -> Result<(), $crate::error::ParameterError> {
                while !self.advance_on_all_threads(u64::MAX)? {}
                Ok(())
            }
        }
    };
}

pub(crate) use in_pieces;
