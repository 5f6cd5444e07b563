//! A stand-in computation for the bit check, until a session can be replayed from a take.

/// Runs a few operations that round, seeded by the text, and folds the bits of every result (FNV-1a, 64 bits).
pub(crate) fn hash_after(text: &str) -> String {
    let mut x = text.bytes().map(f64::from).sum::<f64>();
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for _ in 0..100_000 {
        x = (x * 1.000_1 + 1.0 / (1.0 + x * x)).sqrt() * 3.7 % 97.0;
        for byte in x.to_bits().to_le_bytes() {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    format!("{hash:016x}")
}
