// unpack undoes LZMA in its form "alone": a byte of properties, four of the size of
// the dictionary, eight of the length, which is told apart here since some packers
// leave it open. Written after the LZMA specification of I. Pavlov, which is in the
// public domain. Browsers undo gzip by themselves, which packs a third less.
//
// bit(i) decodes a bit into b by the i-th probability. It is written out at each
// place, see document.go: as a function it would take half as long again, since what
// functions share is kept in memory.
function unpack(src, size) {
  let d = src[0];
  const lc = d % 9; d = (d / 9) | 0;
  const lp = d % 5, pb = (d / 5) | 0;
  const out = new Uint8Array(size), posMask = (1 << pb) - 1, litMask = (1 << lp) - 1;
  const probs = new Uint16Array(1846 + (768 << (lc + lp))).fill(1024);
  const isRep = 192, isRepG0 = 204, isRepG1 = 216, isRepG2 = 228, isRep0Long = 240, slots = 432, spec = 688, align = 802, lenDec = 818, repDec = 1332, lit = 1846;
  let at = 18, range = -1, code = (src[14] << 24) | (src[15] << 16) | (src[16] << 8) | src[17];
  let pos = 0, state = 0, rep0 = 0, rep1 = 0, rep2 = 0, rep3 = 0;
  let p = 0, t = 0, bound = 0, b = 0, m = 0, len = 0;
  while (pos < size) {
    const posState = pos & posMask;
    bit((state << 4) + posState);
    if (b === 0) {
      const base = lit + 768 * (((pos & litMask) << lc) + ((pos ? out[pos - 1] : 0) >> (8 - lc)));
      m = 1;
      if (state >= 7) {
        let match = out[pos - rep0 - 1], off = 256;
        do {
          match <<= 1;
          const mb = match & off;
          bit(base + off + mb + m);
          m = (m << 1) | b;
          off &= b ? mb : ~mb;
        } while (m < 256);
      } else do { bit(base + m); m = (m << 1) | b; } while (m < 256);
      out[pos++] = m;
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    bit(isRep + state);
    const rep = b;
    if (rep) {
      bit(isRepG0 + state);
      if (b === 0) {
        bit(isRep0Long + (state << 4) + posState);
        if (b === 0) {
          state = state < 7 ? 9 : 11;
          out[pos] = out[pos - rep0 - 1]; pos++;
          continue;
        }
      } else {
        let dist;
        bit(isRepG1 + state);
        if (b === 0) dist = rep1;
        else {
          bit(isRepG2 + state);
          if (b === 0) dist = rep2; else { dist = rep3; rep3 = rep2; }
          rep2 = rep1;
        }
        rep1 = rep0; rep0 = dist;
      }
      state = state < 7 ? 8 : 11;
    } else {
      rep3 = rep2; rep2 = rep1; rep1 = rep0;
      state = state < 7 ? 7 : 10;
    }
    // How much is copied, and from how far back.
    let base = rep ? repDec : lenDec, bits = 3, add = 0;
    bit(base);
    if (b === 0) base += 2 + (posState << 3);
    else {
      bit(base + 1);
      if (b === 0) { base += 130 + (posState << 3); add = 8; } else { base += 258; bits = 8; add = 16; }
    }
    m = 1;
    for (let i = bits; i > 0; i--) { bit(base + m); m = (m << 1) | b; }
    len = m - (1 << bits) + add;
    if (!rep) {
      base = slots + (Math.min(len, 3) << 6);
      m = 1;
      for (let i = 6; i > 0; i--) { bit(base + m); m = (m << 1) | b; }
      const slot = m - 64;
      if (slot < 4) rep0 = slot;
      else {
        bits = (slot >> 1) - 1;
        rep0 = (2 | (slot & 1)) << bits;
        let low = align, count = 4;
        if (slot < 14) { low = spec + rep0 - slot; count = bits; }
        else {
          let r = 0;
          for (let i = bits - 4; i > 0; i--) {
            range >>>= 1;
            if ((code ^ -2147483648) >= (range ^ -2147483648)) { code = code - range | 0; r = (r << 1) | 1; } else r <<= 1;
            if (range >>> 24 === 0) { range <<= 8; code = code << 8 | src[at++]; }
          }
          rep0 += r << 4;
        }
        m = 1;
        for (let i = 0; i < count; i++) { bit(low + m); m = (m << 1) | b; rep0 += b << i; }
      }
      if (rep0 >= pos) throw new Error("damaged");
    }
    let from = pos - rep0 - 1;
    const end = Math.min(pos + len + 2, size);
    while (pos < end) out[pos++] = out[from++];
  }
  return out;
}
