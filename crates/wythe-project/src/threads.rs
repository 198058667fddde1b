//! The threads work is shared among.

/// The stack of each thread: room for the deepest expression in the deepest call that the limits allow.
/// Memory is taken only as it is used.
const STACK: usize = 256 * 1024 * 1024;

/// Runs work that may share itself among `count` threads (nought: as many as the machine runs at once).
///
/// Results never depend on the count.
pub fn run<T: Send>(count: usize, work: impl FnOnce() -> T + Send) -> T {
    match rayon::ThreadPoolBuilder::new().num_threads(count).stack_size(STACK).build() {
        Ok(pool) => pool.install(work),
        // Where no thread can be started, the one at hand does the work.
        Err(_) => work(),
    }
}
