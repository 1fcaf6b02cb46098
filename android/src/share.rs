//! A file is handed to another program that the person chooses.

use std::fs;
use std::path::Path;

use jni::errors::Result as JniResult;
use jni::objects::{JByteArray, JObject, JString};
use jni::{Env, JValue, jni_sig, jni_str};
use slint::android::AndroidApp;

use crate::system::with_activity;

/// `Intent.FLAG_GRANT_READ_URI_PERMISSION`.
const MAY_READ: i32 = 1;
/// The first level of the system with a store of downloads that needs no permission: Android 10.
const FIRST_WITH_DOWNLOADS: i32 = 29;

/// Puts a file into the downloads of the phone, and asks the person which program it goes to. Another program
/// can read nothing of this one's own folder.
///
/// # Errors
/// What the system has against it.
pub(crate) fn share(app: &AndroidApp, file: &Path, kind: &str, title: &str) -> Result<(), String> {
    let bytes = fs::read(file).map_err(|cause| cause.to_string())?;
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let shared = Shared { name: &name, kind, title, bytes: &bytes };
    with_activity(app, |env, activity| hand_over(env, activity, &shared)).map_err(|cause| cause.to_string())
}

struct Shared<'a> {
    name: &'a str,
    kind: &'a str,
    title: &'a str,
    bytes: &'a [u8],
}

fn hand_over(env: &mut Env<'_>, activity: &JObject<'_>, shared: &Shared<'_>) -> JniResult<()> {
    let resolver = env
        .call_method(
            activity,
            jni_str!("getContentResolver"),
            jni_sig!("()Landroid/content/ContentResolver;"),
            &[],
        )?
        .l()?;
    let address = put_into_downloads(env, &resolver, shared)?;
    let send = env.new_string("android.intent.action.SEND")?;
    let intent = env.new_object(
        jni_str!("android/content/Intent"),
        jni_sig!("(Ljava/lang/String;)V"),
        &[JValue::Object(&send)],
    )?;
    let kind = env.new_string(shared.kind)?;
    env.call_method(
        &intent,
        jni_str!("setType"),
        jni_sig!("(Ljava/lang/String;)Landroid/content/Intent;"),
        &[JValue::Object(&kind)],
    )?;
    let stream = env.new_string("android.intent.extra.STREAM")?;
    env.call_method(
        &intent,
        jni_str!("putExtra"),
        jni_sig!("(Ljava/lang/String;Landroid/os/Parcelable;)Landroid/content/Intent;"),
        &[JValue::Object(&stream), JValue::Object(&address)],
    )?;
    env.call_method(
        &intent,
        jni_str!("addFlags"),
        jni_sig!("(I)Landroid/content/Intent;"),
        &[JValue::Int(MAY_READ)],
    )?;
    let title = env.new_string(shared.title)?;
    let chooser = env
        .call_static_method(
            jni_str!("android/content/Intent"),
            jni_str!("createChooser"),
            jni_sig!("(Landroid/content/Intent;Ljava/lang/CharSequence;)Landroid/content/Intent;"),
            &[JValue::Object(&intent), JValue::Object(&title)],
        )?
        .l()?;
    env.call_method(
        activity,
        jni_str!("startActivity"),
        jni_sig!("(Landroid/content/Intent;)V"),
        &[JValue::Object(&chooser)],
    )?;
    Ok(())
}

/// Its address in the downloads of the phone.
fn put_into_downloads<'local>(
    env: &mut Env<'local>,
    resolver: &JObject<'_>,
    shared: &Shared<'_>,
) -> JniResult<JObject<'local>> {
    let values = env.new_object(jni_str!("android/content/ContentValues"), jni_sig!("()V"), &[])?;
    for (column, text) in [("_display_name", shared.name), ("mime_type", shared.kind)] {
        let (column, text): (JString<'_>, JString<'_>) = (env.new_string(column)?, env.new_string(text)?);
        env.call_method(
            &values,
            jni_str!("put"),
            jni_sig!("(Ljava/lang/String;Ljava/lang/String;)V"),
            &[JValue::Object(&column), JValue::Object(&text)],
        )?;
    }
    let downloads = env
        .get_static_field(
            jni_str!("android/provider/MediaStore$Downloads"),
            jni_str!("EXTERNAL_CONTENT_URI"),
            jni_sig!("Landroid/net/Uri;"),
        )?
        .l()?;
    let address = env
        .call_method(
            resolver,
            jni_str!("insert"),
            jni_sig!("(Landroid/net/Uri;Landroid/content/ContentValues;)Landroid/net/Uri;"),
            &[JValue::Object(&downloads), JValue::Object(&values)],
        )?
        .l()?;
    let out = env
        .call_method(
            resolver,
            jni_str!("openOutputStream"),
            jni_sig!("(Landroid/net/Uri;)Ljava/io/OutputStream;"),
            &[JValue::Object(&address)],
        )?
        .l()?;
    let bytes: JByteArray<'_> = env.byte_array_from_slice(shared.bytes)?;
    env.call_method(&out, jni_str!("write"), jni_sig!("([B)V"), &[JValue::Object(&bytes)])?;
    env.call_method(&out, jni_str!("close"), jni_sig!("()V"), &[])?;
    Ok(address)
}

/// Has the system a store of downloads that needs no permission?
pub(crate) fn can_share(app: &AndroidApp) -> bool {
    let level = with_activity(app, |env, _| {
        let field = (jni_str!("android/os/Build$VERSION"), jni_str!("SDK_INT"), jni_sig!("I"));
        env.get_static_field(field.0, field.1, field.2)?.i()
    });
    level.is_ok_and(|level| level >= FIRST_WITH_DOWNLOADS)
}
