//! The session: standard input to the fence, answers to standard output, and how we leave.

use futures::future::poll_fn;
use futures::{SinkExt, StreamExt};
use serde::Serialize;
use serde_json::Value;
use std::io::{self, Write};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;
use tokio::runtime::Handle;
use tokio::sync::{Notify, mpsc, oneshot};
use tokio::task::JoinSet;
use tower::Service;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{Client, ClientSocket, Loopback, LspService};

use crate::check::{Checker, Said};
use crate::diagnostics::{Publication, Report};
use crate::engine::Engine;
use crate::fence::Fence;
use crate::frames::{Encoded, Frame, Frames, encode};
use crate::lanes::Lanes;
use crate::language::Language;
use crate::lifecycle::Lifecycle;
use crate::log;
use crate::owner;

/// When input ends, what is on its way has this long; when we leave, the last words have.
const GRACE: Duration = Duration::from_millis(200);
/// Messages between a thread and the loop: enough for no one to wait, little enough for memory.
const QUEUE: usize = 64;

/// Serves one client on standard input and output until it leaves.
///
/// The exit code is 0 after `shutdown`, and 1 without it, also when the input just ends.
pub fn serve(engine: Box<dyn Engine>) -> ExitCode {
    log::panics_with_stack();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_time()
        .build();
    let code = match runtime {
        Ok(runtime) => {
            let code = runtime.block_on(session(engine));
            // A thread that waits for input must not hold us.
            runtime.shutdown_background();
            code
        }
        Err(error) => Err(error),
    };
    code.unwrap_or_else(|error| {
        log::line(format_args!("cannot start: {error}"));
        ExitCode::FAILURE
    })
}

async fn session(engine: Box<dyn Engine>) -> io::Result<ExitCode> {
    let lifecycle = Arc::new(Lifecycle::new());
    let (out, mut written) = writer()?;
    let (fence, socket) = service(engine, &lifecycle, out.downgrade())?;
    let mut frames = reader()?;
    let (requests, answers) = socket.split();
    let mut tasks = JoinSet::new();
    tasks.spawn(forward(requests, out.clone()));
    let mut desk = Desk {
        fence,
        tasks,
        out,
        answers,
    };
    loop {
        tokio::select! {
            frame = frames.recv() => {
                let Some(frame) = frame else {
                    // The client may still read what is on its way.
                    tokio::time::sleep(GRACE).await;
                    break;
                };
                if desk.take(frame).await == Next::Leave {
                    break;
                }
            }
            // Nobody reads us any more.
            _ = &mut written => return Ok(lifecycle.exit_code()),
        }
    }
    desk.close().await;
    let _ = tokio::time::timeout(GRACE, written).await;
    Ok(lifecycle.exit_code())
}

/// The threads below and the layers above them.
fn service(
    engine: Box<dyn Engine>,
    lifecycle: &Arc<Lifecycle>,
    out: mpsc::WeakSender<Encoded>,
) -> io::Result<(Fence<LspService<Language>>, ClientSocket)> {
    let (inbox, events) = std::sync::mpsc::channel();
    let lanes = Lanes::new().map_err(io::Error::other)?;
    let watched = engine.watched();
    let mut client = None;
    let (service, socket) = LspService::new(|given| {
        client = Some(given.clone());
        Language::new(given, inbox.clone(), lanes, watched)
    });
    let runtime = Handle::current();
    let again = client.map(|client| Again::start(&runtime, &client));
    let running = Arc::clone(lifecycle);
    let checker = Checker::start(Box::new(move |said| match (said, &again) {
        (Said::Report(report), _) if running.has_begun() => publish(&out, report),
        (Said::AskFindingsAgain, Some(again)) => again.findings.notify_one(),
        (Said::AskInlaysAgain, Some(again)) => again.inlays.notify_one(),
        _ => {}
    }))?;
    owner::start(engine, checker, events)?;
    Ok((Fence::new(service, inbox, Arc::clone(lifecycle)), socket))
}

/// Writes the list of a file, from the checking thread. That holds no hand on the output: it outlives the session.
fn publish(out: &mpsc::WeakSender<Encoded>, report: Report) {
    let Some(out) = out.upgrade() else { return };
    match encode(&Publication::of(report)) {
        // A closed output is noticed by the session itself.
        Ok(message) => drop(out.blocking_send(message)),
        Err(error) => unwritten(&error),
    }
}

fn unwritten(error: &serde_json::Error) {
    log::line(format_args!(
        "a message cannot be written (our bug): {error}"
    ));
}

/// Tells the client to ask again. One such request is on its way at a time; what comes up meanwhile is one more,
/// so that a client that is slow to answer is never flooded and never left behind.
struct Again {
    findings: Arc<Notify>,
    inlays: Arc<Notify>,
}

impl Again {
    fn start(runtime: &Handle, client: &Client) -> Self {
        let again = Self {
            findings: Arc::default(),
            inlays: Arc::default(),
        };
        let (asked, of) = (Arc::clone(&again.findings), client.clone());
        runtime.spawn(async move {
            loop {
                asked.notified().await;
                refused(of.workspace_diagnostic_refresh().await);
            }
        });
        let (asked, of) = (Arc::clone(&again.inlays), client.clone());
        runtime.spawn(async move {
            loop {
                asked.notified().await;
                refused(of.inlay_hint_refresh().await);
            }
        });
        again
    }
}

fn refused(answer: Result<(), Error>) {
    if let Err(error) = answer {
        log::line(format_args!("the client does not ask again: {error}"));
    }
}

/// Input blocks, so it has a thread; the end of the channel is the end of input.
fn reader() -> io::Result<mpsc::Receiver<Frame>> {
    let (sender, frames) = mpsc::channel(QUEUE);
    std::thread::Builder::new()
        .name("input".into())
        .spawn(move || {
            let mut input = Frames::new(io::stdin().lock());
            loop {
                match input.next() {
                    Ok(Some(frame)) => {
                        if sender.blocking_send(frame).is_err() {
                            return;
                        }
                    }
                    Ok(None) => return,
                    Err(error) => return log::line(format_args!("input failed: {error}")),
                }
            }
        })?;
    Ok(frames)
}

/// Output blocks too; the second value resolves when nothing more can or will be written.
fn writer() -> io::Result<(mpsc::Sender<Encoded>, oneshot::Receiver<()>)> {
    let (out, mut queue) = mpsc::channel::<Encoded>(QUEUE);
    let (done, written) = oneshot::channel();
    std::thread::Builder::new()
        .name("output".into())
        .spawn(move || {
            let mut output = io::stdout().lock();
            while let Some([header, body]) = queue.blocking_recv() {
                let header = output.write_all(&header);
                let whole = header.and_then(|()| output.write_all(&body));
                if let Err(error) = whole.and_then(|()| output.flush()) {
                    log::line(format_args!("output failed: {error}"));
                    break;
                }
            }
            // The session may have left before us.
            let _ = done.send(());
        })?;
    Ok((out, written))
}

async fn forward(
    mut requests: <ClientSocket as Loopback>::RequestStream,
    out: mpsc::Sender<Encoded>,
) {
    while let Some(request) = requests.next().await {
        send(&out, &request).await;
    }
}

async fn send(out: &mpsc::Sender<Encoded>, message: &impl Serialize) {
    match encode(message) {
        // A closed output is noticed by the session itself.
        Ok(bytes) => drop(out.send(bytes).await),
        Err(error) => unwritten(&error),
    }
}

#[derive(PartialEq)]
enum Next {
    Stay,
    Leave,
}

/// Takes each message in the order of arrival.
struct Desk {
    fence: Fence<LspService<Language>>,
    tasks: JoinSet<()>,
    out: mpsc::Sender<Encoded>,
    answers: <ClientSocket as Loopback>::ResponseSink,
}

impl Desk {
    async fn take(&mut self, frame: Frame) -> Next {
        while self.tasks.try_join_next().is_some() {}
        match frame {
            Frame::Message(message) if message.get("method").is_some() => {
                return self.request(message).await;
            }
            Frame::Message(message) => self.answer(message).await,
            Frame::Malformed { why, maybe_edit } => {
                self.refuse(Id::Null, Error::parse_error(), &why, maybe_edit)
                    .await;
            }
        }
        Next::Stay
    }

    async fn request(&mut self, message: Value) -> Next {
        let id = message
            .get("id")
            .and_then(|id| serde_json::from_value(id.clone()).ok());
        let maybe_edit = message
            .get("method")
            .is_some_and(|m| m == "textDocument/didChange");
        let request: Request = match serde_json::from_value(message) {
            Ok(request) => request,
            Err(error) => {
                let (id, why) = (id.unwrap_or_default(), error.to_string());
                self.refuse(id, Error::invalid_request(), &why, maybe_edit)
                    .await;
                return Next::Stay;
            }
        };
        if request.method() == "exit" {
            return Next::Leave;
        }
        // Answered before the next message is taken, so that this finds a session, or its end.
        let at_once = matches!(request.method(), "initialize" | "shutdown");
        if poll_fn(|cx| self.fence.poll_ready(cx)).await.is_err() {
            return Next::Leave;
        }
        let answer = self.fence.call(request);
        let out = self.out.clone();
        let answered = async move {
            if let Ok(Some(response)) = answer.await {
                send(&out, &response).await;
            }
        };
        if at_once {
            answered.await;
        } else {
            self.tasks.spawn(answered);
        }
        Next::Stay
    }

    /// The client's answer to a request of ours.
    async fn answer(&mut self, message: Value) {
        match serde_json::from_value::<Response>(message) {
            Ok(response) => {
                // Refused only when the session is over.
                let _ = self.answers.send(response).await;
            }
            Err(error) => {
                let why = error.to_string();
                self.refuse(Id::Null, Error::invalid_request(), &why, false)
                    .await;
            }
        }
    }

    async fn refuse(&mut self, id: Id, error: Error, why: &str, maybe_edit: bool) {
        log::line(format_args!("a message cannot be read: {why}"));
        if maybe_edit {
            self.fence.lose_texts(why);
        }
        send(&self.out, &Response::from_error(id, error)).await;
    }

    /// Drops what still runs, and with it every hand on the output.
    async fn close(mut self) {
        self.tasks.shutdown().await;
    }
}
