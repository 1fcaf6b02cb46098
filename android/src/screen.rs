//! The screen of the phone stays lit while a clock runs on it.

use std::ffi::c_void;
use std::ptr;
use std::sync::atomic::{AtomicPtr, Ordering};

use ndk_sys::{ANativeActivity, ANativeActivity_setWindowFlags};

/// `WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON`.
const KEEP_SCREEN_ON: u32 = 0x80;

/// The activity that the system made last.
static MADE: AtomicPtr<ANativeActivity> = AtomicPtr::new(ptr::null_mut());

#[allow(unsafe_code, reason = "the entry point of android-activity, in this same library")]
unsafe extern "C" {
    fn ANativeActivity_onCreate(activity: *mut ANativeActivity, saved: *mut c_void, size: usize);
}

/// Called by the system's activity, which the manifest tells its name: it keeps the activity, and goes on
/// where it would have been called without this.
///
/// What android-activity offers for the flags of a window waits for a lock that it holds itself while any
/// event is told, which is when the window decides on them: the app would stand still for good.
#[unsafe(no_mangle)]
#[allow(unsafe_code, reason = "the activity finds its entry point by this very name")]
unsafe extern "C" fn strawblue_on_create(activity: *mut ANativeActivity, saved: *mut c_void, size: usize) {
    MADE.store(activity, Ordering::Release);
    // SAFETY: these are the arguments of the system, handed on as they came.
    unsafe { ANativeActivity_onCreate(activity, saved, size) }
}

/// The screen of one activity.
pub(crate) struct Screen(*mut ANativeActivity);

impl Screen {
    /// Of the activity that was made last.
    pub(crate) fn of_this_activity() -> Self {
        Self(MADE.load(Ordering::Acquire))
    }

    /// Lights it as long as the app is in front, or lets it go dark as the system is set.
    #[allow(unsafe_code, reason = "a call of the system")]
    pub(crate) fn keep_lit(&self, lit: bool) {
        if self.0.is_null() {
            return;
        }
        let (add, remove) = if lit { (KEEP_SCREEN_ON, 0) } else { (0, KEEP_SCREEN_ON) };
        // SAFETY: the system keeps an activity until `android_main`, which alone has this, has returned. The
        // flags are set later, on the activity's own thread, so that any thread may ask for it.
        unsafe { ANativeActivity_setWindowFlags(self.0, add, remove) }
    }
}
