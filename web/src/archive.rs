//! The last bays that left the stage, kept in the browser's database, one for each copy of the page on a host.
use idb::{
    Database, DatabaseEvent, Error, Factory, KeyPath, ObjectStore, ObjectStoreParams, Query,
    Transaction, TransactionMode,
};
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::JsValue;

use crate::{bays::KeptBay, host};

/// The table of bays.
const TABLE: &str = "bays";
/// Bays kept at most: the oldest goes first.
pub(crate) const MOST: usize = 8;

async fn open() -> Result<Database, Error> {
    let mut request = Factory::new()?.open(&format!("lowside{}", host::folder()), Some(1))?;
    request.on_upgrade_needed(|event| {
        if let Ok(database) = event.database() {
            let mut table = ObjectStoreParams::new();
            table.key_path(Some(KeyPath::new_single("id")));
            drop(database.create_object_store(TABLE, table));
        }
    });
    request.await
}

async fn table(mode: TransactionMode) -> Result<(Database, Transaction, ObjectStore), Error> {
    let database = open().await?;
    let transaction = database.transaction(&[TABLE], mode)?;
    let store = transaction.object_store(TABLE)?;
    Ok((database, transaction, store))
}

fn record(bay: &KeptBay) -> JsValue {
    let pair = |(name, text): &(String, String)| Array::of2(&name.into(), &text.into());
    let texts: Array = bay.texts.iter().map(pair).collect();
    let entries = Array::of2(
        &Array::of2(&"id".into(), &bay.id.as_str().into()),
        &Array::of2(&"texts".into(), &texts),
    );
    Object::from_entries(&entries).map_or(JsValue::NULL, Into::into)
}

fn read(record: &JsValue) -> Option<KeptBay> {
    let field = |name: &str| Reflect::get(record, &name.into()).ok();
    let pair = |pair: JsValue| {
        let pair = Array::from(&pair);
        Some((pair.get(0).as_string()?, pair.get(1).as_string()?))
    };
    Some(KeptBay {
        id: field("id")?.as_string()?,
        texts: Array::from(&field("texts")?)
            .iter()
            .filter_map(pair)
            .collect(),
    })
}

async fn newest_first(store: &ObjectStore) -> Result<Vec<KeptBay>, Error> {
    let records = store.get_all(None, None)?.await?;
    let mut all: Vec<KeptBay> = records.iter().filter_map(read).collect();
    all.sort_by(|a, b| b.at().total_cmp(&a.at()));
    Ok(all)
}

/// Keeps a bay, and lets go what is older than the last [`MOST`].
pub(crate) async fn put(bay: &KeptBay) -> Result<(), Error> {
    let (database, transaction, store) = table(TransactionMode::ReadWrite).await?;
    store.put(&record(bay), None)?.await?;
    for old in newest_first(&store).await?.iter().skip(MOST) {
        store.delete(Query::Key(old.id.as_str().into()))?.await?;
    }
    transaction.commit()?.await?;
    database.close();
    Ok(())
}

/// All bays, the one kept last first; none where the browser keeps none.
pub(crate) async fn all() -> Vec<KeptBay> {
    let read = async {
        let (database, _, store) = table(TransactionMode::ReadOnly).await?;
        let all = newest_first(&store).await?;
        database.close();
        Ok::<_, Error>(all)
    };
    read.await.unwrap_or_default()
}

/// One bay.
pub(crate) async fn find(id: &str) -> Option<KeptBay> {
    all().await.into_iter().find(|bay| bay.id == id)
}

/// Removes a bay.
pub(crate) async fn remove(id: &str) -> Result<(), Error> {
    let (database, transaction, store) = table(TransactionMode::ReadWrite).await?;
    store.delete(Query::Key(id.into()))?.await?;
    transaction.commit()?.await?;
    database.close();
    Ok(())
}
