//! The one thread that owns the state, and the queue of jobs before it.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::Url;

use crate::judges::Judges;
use crate::publisher::Publisher;
use crate::state::{Need, State};

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
        let queue = Queue { jobs };
        let own = queue.clone();
        let log = publisher.clone();
        let work = move || match Judges::start() {
            Ok(judges) => wythe_project::run(0, move || go(&waiting, State::new(publisher, own, judges))),
            Err(error) => publisher.log(format!("the server cannot start its threads: {error}")),
        };
        if let Err(error) = std::thread::Builder::new().name("state".into()).spawn(work) {
            log.log(format!("the server cannot start its thread: {error}"));
        }
        queue
    }

    /// Changes the state, once all that was sent before has been done.
    pub(crate) fn tell(&self, change: impl FnOnce(&mut State) + Send + 'static) {
        // Where the thread is gone the process is on its way out.
        let _ = self.jobs.send(Box::new(change));
    }

    /// Asks of the state as it stands once all that was sent before has been done and what the answer needs is
    /// checked. What nobody waits for any more is not worked out; a breakdown answers this one request with an error.
    pub(crate) async fn ask<T: Send + 'static>(
        &self,
        need: Need,
        work: impl FnOnce(&mut State) -> T + Send + 'static,
    ) -> Result<T> {
        self.try_ask(need, move |state| Ok(work(state))).await
    }

    /// Like [`Queue::ask`], for what can be refused.
    pub(crate) async fn try_ask<T: Send + 'static>(
        &self,
        need: Need,
        work: impl FnOnce(&mut State) -> Result<T> + Send + 'static,
    ) -> Result<T> {
        let (answer, waiting) = oneshot::channel();
        self.tell(move |state| {
            if answer.is_closed() {
                return;
            }
            let done = catch_unwind(AssertUnwindSafe(|| {
                state.settle(&need);
                work(state)
            }));
            let done = done.unwrap_or_else(|fault| Err(broken(state, fault.as_ref())));
            let _ = answer.send(done);
        });
        waiting.await.unwrap_or_else(|_| Err(Error::request_cancelled()))
    }

    /// Waits until a file is judged as it stands when all that was sent before has been done; at once where it is no
    /// file of plans.
    pub(crate) async fn judged(&self, url: Url) -> Result<()> {
        let (answer, waiting) = oneshot::channel();
        self.tell(move |state| state.when_judged(&url, answer));
        waiting.await.map_err(|_| Error::request_cancelled())
    }

    /// Waits until one more judgement has been made, or none is due.
    pub(crate) async fn next_judged(&self) -> Result<()> {
        let (answer, waiting) = oneshot::channel();
        self.tell(move |state| state.when_next_judged(answer));
        waiting.await.map_err(|_| Error::request_cancelled())
    }

    /// Does a piece of work that needs nothing of the state, beside it. A breakdown is answered with an error.
    pub(crate) async fn aside<T: Send + 'static>(&self, work: impl FnOnce() -> T + Send + 'static) -> Result<T> {
        let (answer, waiting) = oneshot::channel();
        let queue = self.clone();
        self.tell(move |state| {
            state.aside(Box::new(move || match catch_unwind(AssertUnwindSafe(work)) {
                Ok(done) => {
                    let _ = answer.send(Ok(done));
                }
                Err(fault) => queue.tell(move |state| {
                    let _ = answer.send(Err(broken(state, fault.as_ref())));
                }),
            }));
        });
        waiting.await.unwrap_or_else(|_| Err(Error::request_cancelled()))
    }
}

/// Does jobs in order. Whenever none waits, checks what is open and hands out judgements; then the rest, a little at a
/// time.
fn go(waiting: &Receiver<Job>, mut state: State) {
    while !state.leaving() {
        let job = if state.has_more() {
            match waiting.try_recv() {
                Ok(job) => Some(job),
                Err(TryRecvError::Empty) => None,
                Err(TryRecvError::Disconnected) => return,
            }
        } else {
            match waiting.recv() {
                Ok(job) => Some(job),
                Err(_) => return,
            }
        };
        match job {
            Some(job) => {
                run(&mut state, job);
                while let Ok(job) = waiting.try_recv() {
                    run(&mut state, job);
                }
                run(&mut state, Box::new(State::check_open));
            }
            None => run(&mut state, Box::new(State::check_more)),
        }
        run(&mut state, Box::new(State::hand_out));
    }
}

fn run(state: &mut State, job: Job) {
    if let Err(fault) = catch_unwind(AssertUnwindSafe(|| job(state))) {
        let words = words(fault.as_ref());
        state.publisher().log(format!("a change broke down: {words}"));
    }
}

/// The error a request that broke down is answered with; it is told in the log too.
fn broken(state: &State, fault: &(dyn Any + Send)) -> Error {
    let words = words(fault);
    state.publisher().log(format!("a request broke down: {words}"));
    Error { code: ErrorCode::InternalError, message: words.into(), data: None }
}

fn words(fault: &(dyn Any + Send)) -> String {
    let text = fault.downcast_ref::<&str>().copied();
    let text = text.or_else(|| fault.downcast_ref::<String>().map(String::as_str));
    format!("Wythe broke down ({}); this is a fault of Wythe, not of the plans", text.unwrap_or("no reason is known"))
}
