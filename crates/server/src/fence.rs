//! The layer round the protocol's service.
//!
//! [`Fence::call`] runs in the order in which messages arrive, before anything is awaited. Texts
//! and questions take their place in the owner's channel here. A panic in building or running a
//! handler is answered as our bug; it ends nothing else.

use futures::FutureExt;
use serde_json::Value;
use std::borrow::Cow;
use std::cell::Cell;
use std::future::Future;
use std::panic::AssertUnwindSafe;
use std::pin::Pin;
use std::sync::Arc;
use std::sync::mpsc::Sender;
use std::task::{Context, Poll};
use tokio::sync::oneshot;
use tower::Service;
use tower_lsp::jsonrpc::{Error, ErrorCode, Id, Request, Response};

use crate::events::{self, Event};
use crate::lifecycle::Lifecycle;
use crate::log::{self, fenced};
use crate::uri::repaired;
use crate::view::View;

/// Requests that may be on their way at once; more are told to ask again. Without a bound a burst
/// of slow ones would hold up the answers, and the memory, of all.
const IN_FLIGHT: usize = 128;

tokio::task_local! {
    /// The state that belongs to the request whose handler is running.
    static PLACE: Cell<Option<oneshot::Receiver<Arc<View>>>>;
}

/// The state at the request's place in the order; once per request, inside its handler.
pub(crate) fn place() -> Option<oneshot::Receiver<Arc<View>>> {
    PLACE.try_with(Cell::take).ok().flatten()
}

/// The layer.
pub(crate) struct Fence<S> {
    inner: S,
    inbox: Sender<Event>,
    lifecycle: Arc<Lifecycle>,
    /// One clone for each request on its way.
    slots: Arc<()>,
}

impl<S> Fence<S> {
    pub(crate) fn new(inner: S, inbox: Sender<Event>, lifecycle: Arc<Lifecycle>) -> Self {
        Self {
            inner,
            inbox,
            lifecycle,
            slots: Arc::new(()),
        }
    }

    /// Hands a message about texts to the owner; before `initialize` and after `shutdown` there is none.
    fn tell_owner(&self, request: Request) {
        let (method, _, params) = request.into_parts();
        if !self.lifecycle.is_running() {
            log::line(format_args!("{method} outside a session is dropped"));
            return;
        }
        match events::read(&method, params.unwrap_or(Value::Null)) {
            Ok(event) => self.send(event),
            Err(why) => log::line(format_args!("{method} cannot be read: {why}")),
        }
    }

    /// Something that may have been a change of some text was unreadable.
    pub(crate) fn lose_texts(&self, why: &str) {
        self.send(Event::Lost {
            uri: None,
            why: why.to_owned(),
        });
    }

    fn send(&self, event: Event) {
        if self.inbox.send(event).is_err() {
            log::line("the owner of the texts is gone (our bug)");
        }
    }

    fn is_full(&self) -> bool {
        // Our own handle counts as one.
        Arc::strong_count(&self.slots) > IN_FLIGHT
    }
}

type Answer<E> = Pin<Box<dyn Future<Output = Result<Option<Response>, E>> + Send>>;

impl<S> Service<Request> for Fence<S>
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
    S::Error: Send + 'static,
{
    type Response = Option<Response>;
    type Error = S::Error;
    type Future = Answer<S::Error>;

    fn poll_ready(&mut self, cx: &mut Context<'_>) -> Poll<Result<(), Self::Error>> {
        self.inner.poll_ready(cx)
    }

    fn call(&mut self, request: Request) -> Self::Future {
        let id = request.id().cloned();
        if id.is_none() && events::is_for_owner(request.method()) {
            // Reading outside data is fenced like everything else.
            fenced(|| self.tell_owner(request));
            return futures::future::ok(None).boxed();
        }
        let asks = id.is_some() && self.lifecycle.is_running();
        if asks && request.method() != "shutdown" && self.is_full() {
            return futures::future::ok(id.map(busy)).boxed();
        }
        let lifecycle = Arc::clone(&self.lifecycle);
        let begins = request.method() == "initialize";
        match request.method() {
            "initialized" if self.lifecycle.is_running() => self.send(Event::Ready),
            "shutdown" => lifecycle.shut_down(),
            _ => {}
        }
        let view = asks.then(|| {
            let (reply, view) = oneshot::channel();
            self.send(Event::Ask(reply));
            view
        });
        let slot = asks.then(|| Arc::clone(&self.slots));
        let Some(handler) = fenced(|| self.inner.call(with_valid_addresses(request))) else {
            return futures::future::ok(id.map(our_bug)).boxed();
        };
        Box::pin(PLACE.scope(Cell::new(view), async move {
            let outcome = AssertUnwindSafe(handler).catch_unwind().await;
            drop(slot);
            let Ok(answer) = outcome else {
                return Ok(id.map(our_bug));
            };
            if begins && matches!(&answer, Ok(Some(response)) if response.is_ok()) {
                lifecycle.begin();
            }
            answer
        }))
    }
}

/// Some clients send addresses with blanks or letters beyond ASCII as they are; the protocol's
/// types would refuse the whole request.
fn with_valid_addresses(request: Request) -> Request {
    let (method, id, params) = request.into_parts();
    let mut built = Request::build(method);
    if let Some(mut params) = params {
        repair(&mut params);
        built = built.params(params);
    }
    if let Some(id) = id {
        built = built.id(id);
    }
    built.finish()
}

/// The reader has bounded the depth.
fn repair(params: &mut Value) {
    match params {
        Value::Object(fields) => {
            for (key, value) in fields {
                match value {
                    Value::String(uri) if key == "uri" || key == "rootUri" => {
                        if let Cow::Owned(valid) = repaired(uri) {
                            *uri = valid;
                        }
                    }
                    value => repair(value),
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(repair),
        _ => {}
    }
}

/// The server's own doing, as far as the client is concerned.
pub(crate) fn internal_error() -> Error {
    Error {
        code: ErrorCode::InternalError,
        message: "plumbhook: internal error (our bug); the log has the details".into(),
        data: None,
    }
}

fn our_bug(id: Id) -> Response {
    Response::from_error(id, internal_error())
}

/// `ServerCancelled` of the protocol: nothing is wrong with the question.
fn busy(id: Id) -> Response {
    let error = Error {
        code: ErrorCode::ServerError(-32802),
        message: "busy, ask again".into(),
        data: None,
    };
    Response::from_error(id, error)
}
