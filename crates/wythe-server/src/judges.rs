//! Threads that judge foundations and make drawings beside the state, so that what is typed never waits for them.

use std::num::NonZero;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};

/// The stack of each thread: room for the deepest call that the language allows. Memory is taken only as it is used.
const STACK: usize = 256 * 1024 * 1024;

/// A piece of work.
pub(crate) type Work = Box<dyn FnOnce() + Send>;

/// The threads.
pub(crate) struct Judges {
    work: Sender<Work>,
    /// How many there are.
    pub count: usize,
}

impl Judges {
    /// Starts as many threads as the machine runs at once.
    pub(crate) fn start() -> std::io::Result<Judges> {
        let (work, waiting) = channel::<Work>();
        let waiting = Arc::new(Mutex::new(waiting));
        let count = std::thread::available_parallelism().map_or(1, NonZero::get);
        for number in 0..count {
            let waiting = waiting.clone();
            let name = format!("judge {number}");
            std::thread::Builder::new().name(name).stack_size(STACK).spawn(move || go(&waiting))?;
        }
        Ok(Judges { work, count })
    }

    /// Does a piece of work on one of the threads.
    pub(crate) fn hand(&self, work: Work) {
        // Where the threads are gone the process is on its way out.
        let _ = self.work.send(work);
    }
}

/// Works until nobody can send work any more.
fn go(waiting: &Mutex<Receiver<Work>>) {
    loop {
        let next = waiting.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok(work) = next else { return };
        // What breaks down is told by whoever waits for it; the thread goes on.
        let _ = std::panic::catch_unwind(std::panic::AssertUnwindSafe(work));
    }
}
