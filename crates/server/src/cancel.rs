//! A question that nobody waits for any more is cancelled.

use plumbhook_workspace::Cancel;

/// Lives in a handler's future: when the future is dropped, the worker hears of it.
pub(crate) struct CancelOnDrop(pub(crate) Cancel);

impl Drop for CancelOnDrop {
    fn drop(&mut self) {
        self.0.cancel();
    }
}
