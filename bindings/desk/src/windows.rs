//! What Windows has in place of Unix's rights of a file, of signals, and of the environment's locale.
//!
//! A home gets an access list as a profile's folder has it: its user, the system, the administrators, and nobody by
//! inheritance. The device secret lies in it as on Unix, and is not wrapped by the user's own key (DPAPI): an administrator
//! who resets a forgotten password would take the whole account away with it.

use std::ffi::c_void;
use std::os::windows::ffi::OsStrExt;
use std::path::Path;
use std::ptr::null_mut;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};
use std::time::Duration;

use windows_sys::Win32::Foundation::{CloseHandle, FALSE, HANDLE, LocalFree, TRUE};
use windows_sys::Win32::Globalization::GetUserDefaultLocaleName;
use windows_sys::Win32::Security::Authorization::{
    ConvertSidToStringSidW, ConvertStringSecurityDescriptorToSecurityDescriptorW,
};
use windows_sys::Win32::Security::{
    DACL_SECURITY_INFORMATION, GetTokenInformation, PROTECTED_DACL_SECURITY_INFORMATION, SetFileSecurityW,
    TOKEN_QUERY, TOKEN_USER, TokenUser,
};
use windows_sys::Win32::System::Console::{CTRL_BREAK_EVENT, CTRL_C_EVENT, SetConsoleCtrlHandler};
use windows_sys::Win32::System::Threading::{GetCurrentProcess, OpenProcessToken};

/// The only revision of the language of access lists ([MS-DTYP] 2.5.1).
const SDDL_REVISION_1: u32 = 1;
/// Set once the console says that this program is to end.
static ENDED: OnceLock<Arc<AtomicBool>> = OnceLock::new();
/// Longer than a system lets a program live whose console was closed (five seconds, HandlerRoutine's documentation).
const OUTLIVES: Duration = Duration::from_secs(60);
/// LOCALE_NAME_MAX_LENGTH.
const LONGEST_LOCALE: usize = 85;

/// Closes a folder with all that will be in it, or a file, to everybody but its user, the system and the administrators.
/// Where the system refuses, as on a stick without access lists, it stays as it was.
pub(crate) fn close_to_others(path: &Path) {
    let Some(user) = user() else { return };
    let heirs = if path.is_dir() { "OICI" } else { "" };
    let list = format!("D:P(A;{heirs};FA;;;{user})(A;{heirs};FA;;;SY)(A;{heirs};FA;;;BA)");
    let (list, path) = (wide(list.as_ref()), wide(path.as_os_str()));
    let mut descriptor = null_mut();
    // SAFETY: both texts end with a zero; what is made is freed by the function that its documentation names, once.
    unsafe {
        let made = ConvertStringSecurityDescriptorToSecurityDescriptorW(
            list.as_ptr(),
            SDDL_REVISION_1,
            &raw mut descriptor,
            null_mut(),
        );
        if made != 0 {
            let what = DACL_SECURITY_INFORMATION | PROTECTED_DACL_SECURITY_INFORMATION;
            SetFileSecurityW(path.as_ptr(), what, descriptor);
            LocalFree(descriptor);
        }
    }
}

/// The user of this program, as access lists write one: `S-1-5-21-…`.
fn user() -> Option<String> {
    let mut token: HANDLE = null_mut();
    // A TOKEN_USER and the longest identifier behind it, aligned for its pointer.
    let mut room = [0_u64; 32];
    let mut text = null_mut();
    // SAFETY: the room is as large as is said, and aligned; the identifier lies in it while it is read; what is made is
    // closed or freed by the function that its documentation names, once.
    unsafe {
        if OpenProcessToken(GetCurrentProcess(), TOKEN_QUERY, &raw mut token) == 0 {
            return None;
        }
        let (size, mut used) = (u32::try_from(size_of_val(&room)).ok()?, 0);
        let place = room.as_mut_ptr().cast::<c_void>();
        let known = GetTokenInformation(token, TokenUser, place, size, &raw mut used);
        CloseHandle(token);
        let user = place.cast::<TOKEN_USER>();
        if known == 0 || ConvertSidToStringSidW((*user).User.Sid, &raw mut text) == 0 {
            return None;
        }
        let length = (0..).take_while(|at| *text.add(*at) != 0).count();
        let said = String::from_utf16(std::slice::from_raw_parts(text, length)).ok();
        LocalFree(text.cast());
        said
    }
}

/// The language that the user chose for this system, such as `es-MX`.
pub(crate) fn locale() -> Option<String> {
    let mut name = [0_u16; LONGEST_LOCALE];
    let room = i32::try_from(name.len()).ok()?;
    // SAFETY: the room is as large as is said.
    let length = unsafe { GetUserDefaultLocaleName(name.as_mut_ptr(), room) };
    let letters = usize::try_from(length).ok()?.checked_sub(1)?;
    String::from_utf16(name.get(..letters)?).ok()
}

fn wide(text: &std::ffi::OsStr) -> Vec<u16> {
    text.encode_wide().chain([0]).collect()
}

/// A flag that is set at Ctrl-C, at Ctrl-Break, and where the console's window is closed or the user leaves.
///
/// # Errors
/// The system takes no handler.
pub(crate) fn ended_at_console() -> std::io::Result<Arc<AtomicBool>> {
    let ended = ENDED.get_or_init(|| Arc::new(AtomicBool::new(false)));
    // SAFETY: the handler is a function of this program's own and lives as long as it does; twice the same does no harm.
    match unsafe { SetConsoleCtrlHandler(Some(end), TRUE) } {
        FALSE => Err(std::io::Error::last_os_error()),
        _ => Ok(Arc::clone(ended)),
    }
}

/// Runs in a thread that the system makes for it.
unsafe extern "system" fn end(event: u32) -> windows_sys::core::BOOL {
    if let Some(ended) = ENDED.get() {
        ended.store(true, Ordering::Relaxed);
    }
    if !matches!(event, CTRL_C_EVENT | CTRL_BREAK_EVENT) {
        // A window that is closed takes the program with it as soon as this function is done: until then what runs can end
        // in order, and its end is the end of this thread.
        std::thread::sleep(OUTLIVES);
    }
    TRUE
}
