//! Calls into the system's own classes.

use jni::errors::Result as JniResult;
use jni::objects::JObject;
use jni::refs::Global;
use jni::sys::jobject;
use jni::{Env, JavaVM};
use slint::android::AndroidApp;

/// Does something with the activity of the app.
///
/// # Errors
/// What the system has against it.
#[allow(unsafe_code, reason = "the machine and the activity come as pointers")]
pub(crate) fn with_activity<T>(
    app: &AndroidApp,
    act: impl FnOnce(&mut Env<'_>, &JObject<'_>) -> JniResult<T>,
) -> JniResult<T> {
    let activity = app.activity_as_ptr() as jobject;
    // SAFETY: the app holds the one virtual machine of its process.
    let machine = unsafe { JavaVM::from_raw(app.vm_as_ptr().cast()) };
    machine.attach_current_thread(|env| {
        // SAFETY: it is a global reference that lives as long as the app.
        let activity = unsafe { env.as_cast_raw::<Global<JObject<'_>>>(&activity)? };
        act(env, activity.as_ref())
    })
}
