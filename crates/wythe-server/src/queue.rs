//! The one thread that owns the state, and the queue of jobs before it.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, Sender, channel};

use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};

use crate::publisher::Publisher;
use crate::state::State;

type Job = Box<dyn FnOnce(&mut State) + Send>;

/// The queue before the state's thread.
#[derive(Clone)]
pub(crate) struct Queue {
    jobs: Sender<Job>,
}

impl Queue {
    /// Starts the thread.
    pub(crate) fn start(publisher: Publisher) -> Queue {
        let (jobs, waiting) = channel::<Job>();
        let log = publisher.clone();
        let work = move || wythe_project::run(0, move || go(&waiting, State::new(publisher)));
        if let Err(error) = std::thread::Builder::new().name("state".into()).spawn(work) {
            log.log(format!("the server cannot start its thread: {error}"));
        }
        Queue { jobs }
    }

    /// Changes the state, once all that was sent before has been done.
    pub(crate) fn tell(&self, change: impl FnOnce(&mut State) + Send + 'static) {
        // Where the thread is gone the process is on its way out.
        let _ = self.jobs.send(Box::new(change));
    }

    /// Asks of the state as it stands once all that was sent before has been done. What nobody waits for any more
    /// is not worked out; a breakdown answers this one request with an error.
    pub(crate) async fn ask<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut State) -> T + Send + 'static,
    ) -> Result<T> {
        self.try_ask(move |state| Ok(work(state))).await
    }

    /// Like [`Queue::ask`], for what can be refused.
    pub(crate) async fn try_ask<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut State) -> Result<T> + Send + 'static,
    ) -> Result<T> {
        let (answer, waiting) = oneshot::channel();
        self.tell(move |state| {
            if answer.is_closed() {
                return;
            }
            state.settle();
            let done = catch_unwind(AssertUnwindSafe(|| work(state)));
            let done = done.unwrap_or_else(|fault| {
                let words = words(fault.as_ref());
                state.publisher().log(format!("a request broke down: {words}"));
                Err(Error { code: ErrorCode::InternalError, message: words.into(), data: None })
            });
            let _ = answer.send(done);
        });
        waiting.await.unwrap_or_else(|_| Err(Error::request_cancelled()))
    }
}

/// Does jobs in order; checks the plans whenever nothing waits.
fn go(waiting: &Receiver<Job>, mut state: State) {
    while let Ok(job) = waiting.recv() {
        run(&mut state, job);
        while let Ok(job) = waiting.try_recv() {
            run(&mut state, job);
        }
        run(&mut state, Box::new(State::settle));
    }
}

fn run(state: &mut State, job: Job) {
    if let Err(fault) = catch_unwind(AssertUnwindSafe(|| job(state))) {
        let words = words(fault.as_ref());
        state.publisher().log(format!("a change broke down: {words}"));
    }
}

fn words(fault: &(dyn Any + Send)) -> String {
    let text = fault.downcast_ref::<&str>().copied();
    let text = text.or_else(|| fault.downcast_ref::<String>().map(String::as_str));
    format!("Wythe broke down ({}); this is a fault of Wythe, not of the plans", text.unwrap_or("no reason is known"))
}
