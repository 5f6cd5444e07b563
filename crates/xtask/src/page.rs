//! Builds the page: the web crate as WebAssembly, its bindings, the static files, and a compressed copy of each.
use std::{collections::BTreeMap, fs, io::Write, path::Path, thread, time::Instant};

use anyhow::{Context, Result, bail};
use brotli::enc::BrotliEncoderParams;
use flate2::{Compression, write::GzEncoder};
use wasm_bindgen_cli_support::Bindgen;

use crate::{
    cut, glue, offline,
    place::{Place, run},
    tools,
};

/// What may be sent before the loop runs, shell included, brotli, bytes: a classroom's shared connection is the yardstick.
const FIRST_VIEW: usize = 320_000;

/// What the shell with its doors may weigh of it.
const SHELL: usize = 25_000;

/// The files that the shell is made of, before a door is pressed.
const SHELL_FILES: [&str; 5] = [
    INDEX,
    "language.js",
    "lowside.css",
    "boot.js",
    offline::ICON,
];

/// The one file whose address never changes.
pub(crate) const INDEX: &str = "index.html";

/// A built page, as it stands in `target/site`. It is kept in memory too, so that a server of it shows one version until
/// it ends, whatever is built meanwhile.
pub(crate) struct Site {
    /// The files by their path.
    pub(crate) files: BTreeMap<String, Packed>,
}

/// The profile that the page is built with.
pub(crate) const PROFILE: &str = "wasm-release";

/// The first part of the program.
const PROGRAM: &str = "lowside_bg.wasm";

/// The style sheet of what only later parts show.
const LATER_SHEET: &str = "later.css";

/// Files that are sent once the page runs: that sheet, and what keeps the page and installs it.
const LATER_FILES: [&str; 5] = [
    LATER_SHEET,
    WORKER,
    "manifest.webmanifest",
    "icon-192.png",
    "icon-512.png",
];

/// The service worker: it is put together last, from the list of the others.
const WORKER: &str = "sw.js";

/// One file of the page, as it is and as it is sent.
pub(crate) struct Packed {
    /// The file itself.
    pub(crate) raw: Vec<u8>,
    /// Compressed copies; a development build goes without.
    pub(crate) compressed: Option<Compressed>,
}

/// A file's compressed copies.
pub(crate) struct Compressed {
    /// For every current browser.
    pub(crate) brotli: Vec<u8>,
    /// For a static host or proxy that knows no brotli.
    pub(crate) gzip: Vec<u8>,
}

impl Packed {
    fn new(raw: Vec<u8>, compress: bool) -> Result<Self> {
        let compressed = if compress {
            Some(Compressed::new(&raw)?)
        } else {
            None
        };
        Ok(Self { raw, compressed })
    }

    /// Bytes that a browser receives.
    fn sent(&self) -> usize {
        self.compressed
            .as_ref()
            .map_or(self.raw.len(), |copies| copies.brotli.len())
    }
}

impl Compressed {
    fn new(raw: &[u8]) -> Result<Self> {
        let mut brotli = Vec::new();
        let params = BrotliEncoderParams {
            quality: 11, // the best
            lgwin: 22,   // the window every browser accepts
            lgblock: 24, // the largest: its models are learnt over the whole program
            ..BrotliEncoderParams::default()
        };
        brotli::CompressorWriter::with_params(&mut brotli, 1 << 16, &params).write_all(raw)?;
        let mut gzip = GzEncoder::new(Vec::new(), Compression::best());
        gzip.write_all(raw)?;
        Ok(Self {
            brotli,
            gzip: gzip.finish()?,
        })
    }
}

impl Site {
    /// What the page is sent in: what it is, its bytes as sent, and how many there may be.
    fn weights(&self) -> Vec<(String, usize, usize)> {
        let base = |name: &str| name.rsplit('/').next().unwrap_or(name).to_owned();
        let sum = |asked: &dyn Fn(&str) -> bool| {
            let files = self.files.iter().filter(|(name, _)| asked(&base(name)));
            files.map(|(_, file)| file.sent()).sum()
        };
        // What stands beside the index installs the page, or is the worker that keeps it: both come once it runs.
        let first = |name: &str| cut::part_of(name).is_none() && !LATER_FILES.contains(&name);
        let mut all = vec![
            (
                "shell and doors".to_owned(),
                sum(&|name| SHELL_FILES.contains(&name)),
                SHELL,
            ),
            ("until the loop runs".to_owned(), sum(&first), FIRST_VIEW),
            (
                "later: styles".to_owned(),
                sum(&|name| name == LATER_SHEET),
                3_000,
            ),
        ];
        all.extend(cut::FILES.iter().map(|later| {
            let file = cut::file_name(later.name);
            (
                format!("later: {}", later.name),
                sum(&|name| name == file),
                later.most,
            )
        }));
        all
    }

    /// Holds each part to what it may weigh.
    pub(crate) fn hold(&self) -> Result<()> {
        for (what, sent, most) in self.weights() {
            if sent > most {
                bail!("{what}: {sent} bytes as sent; the budget is {most}");
            }
        }
        Ok(())
    }

    fn write(&self, dir: &Path) -> Result<()> {
        for (name, file) in &self.files {
            let path = dir.join(name);
            if let Some(parent) = path.parent() {
                fs::create_dir_all(parent)?;
            }
            put(&path, &file.raw)?;
            if let Some(copies) = &file.compressed {
                put(&dir.join(format!("{name}.br")), &copies.brotli)?;
                put(&dir.join(format!("{name}.gz")), &copies.gzip)?;
            }
        }
        Ok(())
    }

    fn report(&self) {
        println!("{:<40} {:>10} {:>10}", "file", "raw", "sent");
        for (name, file) in &self.files {
            println!("{name:<40} {:>10} {:>10}", file.raw.len(), file.sent());
        }
        println!("\n{:<40} {:>10} {:>10}", "part", "sent", "budget");
        for (what, sent, most) in self.weights() {
            println!("{what:<40} {sent:>10} {most:>10}");
        }
    }
}

fn put(path: &Path, bytes: &[u8]) -> Result<()> {
    fs::write(path, bytes).with_context(|| format!("writing {}", path.display()))
}

/// Builds `target/site` and prints what each file weighs.
///
/// Everything but `index.html` and what `web/root` holds stands in a directory named after the content of all files, so a reload takes either the
/// old page whole or the new page whole.
pub(crate) fn build(place: &Place, dev: bool) -> Result<Site> {
    tools::ensure_wasm_target()?;
    let (profile, folder) = if dev {
        ("dev", "debug")
    } else {
        (PROFILE, PROFILE)
    };
    let mut cargo = place.cargo(&[
        "build",
        "--package=lowside-web",
        "--target=wasm32-unknown-unknown",
    ]);
    run(cargo.arg("--profile").arg(profile))?;

    let started = Instant::now();
    let wasm = place
        .target
        .join("wasm32-unknown-unknown")
        .join(folder)
        .join("lowside-web.wasm");
    let bindings = place.target.join("site-bindings");
    replace_dir(&bindings)?;
    let first = place.target.join("site-first.wasm");
    let scratch = place.target.join("site-modules");
    replace_dir(&scratch)?;
    cut::cut(&wasm, &first, &scratch, &bindings)?;
    Bindgen::new()
        .input_path(&first)
        .web(true)?
        .typescript(false)
        .omit_default_module_path(false) // the default would leave it to the page to find the wasm file
        .out_name("lowside")
        .keep_lld_exports(true) // the parts share the function table
        .keep_debug(false)
        .remove_name_section(!dev)
        .remove_producers_section(true)
        .generate(&bindings)
        .context("making the wasm bindings")?;

    if !dev {
        glue::shorten(&bindings.join(PROGRAM), &bindings.join("lowside.js"))?;
    }

    let mut assets = BTreeMap::new();
    collect(&bindings, "", &mut assets)?;
    collect(&place.root.join("web/static"), "", &mut assets)?;
    if !dev {
        for (name, bytes) in &mut assets {
            *bytes = glue::minified(name, core::mem::take(bytes))?;
        }
    }
    let index =
        fs::read_to_string(place.root.join("web/index.html")).context("reading web/index.html")?;
    // Addresses that browsers keep must not change: the worker, the manifest and its icons stand beside the index.
    let mut root = BTreeMap::new();
    collect(&place.root.join("web/root"), "", &mut root)?;
    root.extend(offline::icons()?);
    let whole: BTreeMap<_, _> = assets
        .iter()
        .chain(&root)
        .map(|(n, b)| (n.clone(), b.clone()))
        .collect();
    let version = version(&index, &whole);
    let program = assets.get(PROGRAM).context("no program was made")?.len();
    let index =
        point_at_version(&index, &version, &assets)?.replace("{{bytes}}", &program.to_string());

    let mut files = BTreeMap::from([(INDEX.to_owned(), index.into_bytes())]);
    for (name, bytes) in assets {
        files.insert(format!("{version}/{name}"), bytes);
    }
    let listed: Vec<String> = std::iter::once("./".to_owned())
        .chain(files.keys().filter(|name| *name != INDEX).cloned())
        .chain(root.keys().filter(|name| *name != WORKER).cloned())
        .collect();
    for (name, bytes) in root {
        let bytes = if name == WORKER {
            let template = String::from_utf8(bytes).context("the worker is text")?;
            offline::worker(&template, &version, &listed, dev).into_bytes()
        } else {
            bytes
        };
        files.insert(name, bytes);
    }
    let site = Site {
        files: pack(files, !dev)?,
    };

    let staged = place.target.join("site-next");
    replace_dir(&staged)?;
    site.write(&staged)?;
    let dir = place.target.join("site");
    if dir.exists() {
        fs::remove_dir_all(&dir).with_context(|| format!("removing the old {}", dir.display()))?;
    }
    fs::rename(&staged, &dir).with_context(|| format!("moving the page to {}", dir.display()))?;
    site.report();
    println!(
        "{} ({:.1} s after cargo)",
        dir.display(),
        started.elapsed().as_secs_f64()
    );
    Ok(site)
}

/// Packs the files beside each other: the two large ones take most of the time.
fn pack(files: BTreeMap<String, Vec<u8>>, compress: bool) -> Result<BTreeMap<String, Packed>> {
    thread::scope(|scope| {
        let packing: Vec<_> = files
            .into_iter()
            .map(|(name, raw)| (name, scope.spawn(move || Packed::new(raw, compress))))
            .collect();
        packing
            .into_iter()
            .map(|(name, packed)| match packed.join() {
                Ok(packed) => Ok((name, packed?)),
                Err(_) => bail!("packing {name} failed"),
            })
            .collect()
    })
}

/// Reads a directory tree; a missing directory is an empty one. Two files of one name are an error.
fn collect(dir: &Path, prefix: &str, into: &mut BTreeMap<String, Vec<u8>>) -> Result<()> {
    if !dir.exists() {
        return Ok(());
    }
    for entry in fs::read_dir(dir).with_context(|| format!("reading {}", dir.display()))? {
        let path = entry?.path();
        let Some(base) = path.file_name().and_then(|name| name.to_str()) else {
            bail!("{}: a file name must be plain text", path.display());
        };
        let name = format!("{prefix}{base}");
        if path.is_dir() {
            collect(&path, &format!("{name}/"), into)?;
        } else {
            let bytes = fs::read(&path).with_context(|| format!("reading {}", path.display()))?;
            if into.insert(name, bytes).is_some() {
                bail!(
                    "{}: the wasm bindings have a file of that name already",
                    path.display()
                );
            }
        }
    }
    Ok(())
}

/// A name for exactly this content: FNV-1a, 64 bits, over every name and byte. It guards against mix-ups, not attackers.
fn version(index: &str, assets: &BTreeMap<String, Vec<u8>>) -> String {
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    let mut take = |bytes: &[u8]| {
        for byte in bytes.iter().chain(&[0xff]) {
            hash = (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
    take(index.as_bytes());
    for (name, bytes) in assets {
        take(name.as_bytes());
        take(bytes);
    }
    format!("{hash:016x}")
}

/// Turns every `"assets/NAME` in the index into the versioned path; a name that does not exist is an error here rather
/// than a blank page later.
fn point_at_version(
    index: &str,
    version: &str,
    assets: &BTreeMap<String, Vec<u8>>,
) -> Result<String> {
    const MARK: &str = "\"assets/";
    for rest in index.split(MARK).skip(1) {
        let name = rest.split('"').next().unwrap_or_default();
        if !assets.contains_key(name) {
            bail!(
                "web/index.html asks for assets/{name}, which is neither in web/static nor made by the build"
            );
        }
    }
    Ok(index.replace(MARK, &format!("\"{version}/")))
}

fn replace_dir(dir: &Path) -> Result<()> {
    if dir.exists() {
        fs::remove_dir_all(dir).with_context(|| format!("removing {}", dir.display()))?;
    }
    fs::create_dir_all(dir).with_context(|| format!("making {}", dir.display()))
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use flate2::read::GzDecoder;

    use super::*;

    fn assets() -> BTreeMap<String, Vec<u8>> {
        BTreeMap::from([
            ("a.js".to_owned(), b"one".to_vec()),
            ("b.css".to_owned(), b"two".to_vec()),
        ])
    }

    #[test]
    fn any_changed_byte_or_name_changes_the_version() {
        let original = version("index", &assets());
        let mut other = assets();
        other.insert("a.js".to_owned(), b"onf".to_vec());
        assert_ne!(original, version("index", &other));
        let renamed = BTreeMap::from([
            ("a.jsone".to_owned(), Vec::new()),
            ("b.css".to_owned(), b"two".to_vec()),
        ]);
        assert_ne!(original, version("index", &renamed));
        assert_ne!(original, version("indey", &assets()));
        assert_eq!(original, version("index", &assets()));
    }

    #[test]
    fn the_index_points_at_the_version_and_a_missing_file_is_named() {
        let html = r#"<script src="assets/a.js"></script><link href="assets/b.css">"#;
        let pointed = point_at_version(html, "v1", &assets()).expect("both files are there");
        assert_eq!(
            pointed,
            r#"<script src="v1/a.js"></script><link href="v1/b.css">"#
        );
        let error = point_at_version(r#"<img src="assets/c.svg">"#, "v1", &assets())
            .expect_err("c.svg is missing");
        assert!(error.to_string().contains("assets/c.svg"), "{error}");
    }

    #[test]
    fn compressed_copies_unpack_to_the_original() {
        let text = b"low side, high side, ".repeat(200);
        let copies = Compressed::new(&text).expect("packs");
        let mut unpacked = Vec::new();
        brotli::BrotliDecompress(&mut &copies.brotli[..], &mut unpacked).expect("unpacks");
        assert_eq!(unpacked, text);
        let mut unpacked = Vec::new();
        GzDecoder::new(&copies.gzip[..])
            .read_to_end(&mut unpacked)
            .expect("unpacks");
        assert_eq!(unpacked, text);
    }
}
