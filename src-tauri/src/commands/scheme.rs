//! Pictures come to the page by an address of their own, `photo://localhost/JOB/SHA/thumb`, not through commands.

use super::Desk;
use crate::photos::{self, Size};
use crate::record::Hash;
use tauri::http::{Response, StatusCode, header};
use uuid::Uuid;

/// Name of the scheme.
pub const NAME: &str = "photo";

/// Answers one request for a picture. The database is not asked: the name of the file is its hash.
#[must_use]
pub fn answer(desk: &Desk, path: &str) -> Response<Vec<u8>> {
    let picture = asked(path).and_then(|(job, sha, size)| photos::picture(&desk.jobs().folder(job), sha, size).ok());
    let (status, kind, body) = match picture {
        Some(jpeg) => (StatusCode::OK, "image/jpeg", jpeg),
        None => (StatusCode::NOT_FOUND, "text/plain", Vec::new()),
    };
    let mut response = Response::new(body);
    *response.status_mut() = status;
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, header::HeaderValue::from_static(kind));
    if status == StatusCode::OK {
        // The same address always means the same bytes.
        let long = header::HeaderValue::from_static("private, max-age=31536000, immutable");
        headers.insert(header::CACHE_CONTROL, long);
    }
    response
}

/// Job, photo and size that an address asks for. Only well-formed ids get through, so no path can lead elsewhere.
fn asked(path: &str) -> Option<(Uuid, Hash, Size)> {
    let mut parts = path.trim_start_matches('/').split('/');
    let job = Uuid::parse_str(parts.next()?).ok()?;
    let sha: Hash = parts.next()?.parse().ok()?;
    let size = match parts.next()? {
        "thumb" => Size::Thumb,
        "view" => Size::View,
        _ => return None,
    };
    parts.next().is_none().then_some((job, sha, size))
}

#[cfg(test)]
mod tests {
    use super::asked;

    #[test]
    fn only_well_formed_addresses_get_through() {
        let job = "0b3e7c1a-5d0f-4c52-9a55-0d8c53f0a111";
        let sha = "ab".repeat(32);
        assert!(asked(&format!("/{job}/{sha}/thumb")).is_some());
        assert!(asked(&format!("/{job}/{sha}/view")).is_some());
        for path in [
            format!("/{job}/{sha}/original"),
            format!("/{job}/{sha}/view/.."),
            format!("/../{job}/{sha}/view"),
            format!("/{job}/../view"),
            format!("/{job}/{sha}"),
            "/".to_owned(),
            String::new(),
        ] {
            assert!(asked(&path).is_none(), "{path}");
        }
    }
}
