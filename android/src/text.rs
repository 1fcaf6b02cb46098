//! How large the person wants the letters of all programs.

use jni::{jni_sig, jni_str};
use slint::android::AndroidApp;

use crate::system::with_activity;

/// Of the usual size, as the phone is set when the app is opened; the usual size where it does not say.
pub(crate) fn scale(app: &AndroidApp) -> f32 {
    with_activity(app, |env, activity| {
        let resources = env
            .call_method(
                activity,
                jni_str!("getResources"),
                jni_sig!("()Landroid/content/res/Resources;"),
                &[],
            )?
            .l()?;
        let configuration = env
            .call_method(
                &resources,
                jni_str!("getConfiguration"),
                jni_sig!("()Landroid/content/res/Configuration;"),
                &[],
            )?
            .l()?;
        env.get_field(&configuration, jni_str!("fontScale"), jni_sig!("F"))?.f()
    })
    .unwrap_or(1.0)
}
