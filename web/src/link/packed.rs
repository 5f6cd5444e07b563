//! Packed links: all of a take, by the browser's own packer.
use std::pin::Pin;

use js_sys::{Array, Function, Reflect, Uint8Array};
use lowside_lessons::link::{self, LARGEST, LinkError};
use lowside_session::{Scenario, Take};
use lowside_units::display::UnitSystem;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, ReadableStreamDefaultReader, ReadableWritablePair};

use super::{NoLink, shown};
use crate::{
    host,
    later::{self, Part},
};

/// What comes of packing, and of unpacking.
pub(crate) type Packed = Pin<Box<dyn Future<Output = Result<String, NoLink>>>>;
pub(crate) type Unpacked = Pin<Box<dyn Future<Output = Result<Take, LinkError>>>>;

/// Packs and unpacks by the browser: its streams for raw deflate.
enum Packer {
    Packs,
    Unpacks,
}

impl Packer {
    /// Sends bytes through; none if the browser has no such stream or the bytes are no good, and none where more than [`LARGEST`] come out:
    /// what comes after that is not asked for.
    async fn through(self, bytes: &[u8]) -> Option<Vec<u8>> {
        let name = match self {
            Self::Packs => "CompressionStream",
            Self::Unpacks => "DecompressionStream",
        };
        let class = Reflect::get(&host::window(), &name.into()).ok()?;
        let class: Function = class.dyn_into().ok()?;
        let stream = Reflect::construct(&class, &Array::of1(&"deflate-raw".into())).ok()?;
        let stream: ReadableWritablePair = stream.unchecked_into();
        let whole = Array::of1(&Uint8Array::from(bytes));
        let from = Blob::new_with_u8_array_sequence(&whole).ok()?.stream();
        let reader = ReadableStreamDefaultReader::new(&from.pipe_through(&stream)).ok()?;
        let mut all = Vec::new();
        loop {
            let piece = JsFuture::from(reader.read()).await.ok()?;
            let get = |name: &str| Reflect::get(&piece, &JsValue::from(name)).ok();
            if get("done")?.is_truthy() {
                return Some(all);
            }
            all.extend(get("value")?.dyn_into::<Uint8Array>().ok()?.to_vec());
            if all.len() > LARGEST {
                drop(JsFuture::from(reader.cancel()).await);
                return Some(all);
            }
        }
    }
}

/// The link's text, bounded.
async fn unpacked(packed: &[u8]) -> Result<String, LinkError> {
    let bytes = Packer::Unpacks.through(packed).await;
    let bytes = bytes.ok_or(LinkError::Damaged)?;
    if bytes.len() > LARGEST {
        return Err(LinkError::TooLarge);
    }
    String::from_utf8(bytes).map_err(|_| LinkError::Damaged)
}

fn card(name: &str) -> Option<Scenario> {
    Some(later::job(name)?.bay().scenario().clone())
}

/// The part of an address behind `#` for a take.
pub(crate) fn of(take: Take, units: UnitSystem) -> Packed {
    Box::pin(async move {
        if take.sitting.job().is_some() {
            later::fetch(Part::Jobs).await;
        }
        let text = link::text(&take, &card);
        let packed = Packer::Packs.through(text.as_bytes()).await;
        let packed = packed.ok_or(NoLink::NoPacker)?;
        link::fragment(&shown(units), &packed).map_err(NoLink::TooLong)
    })
}

/// Reads the part of an address behind `#` that has a packed take.
pub(crate) fn read(fragment: String) -> Unpacked {
    Box::pin(async move {
        let packed = link::packed(&fragment)?.ok_or(LinkError::Damaged)?;
        let text = unpacked(&packed).await?;
        if link::begins_with_card(&text) {
            later::fetch(Part::Jobs).await;
        }
        link::take(&text, &card)
    })
}
