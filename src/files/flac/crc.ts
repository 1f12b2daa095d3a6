/** FLAC's checksums (RFC 9639, 9.1.8 and 9.3): x⁸+x²+x+1 over a frame's header, x¹⁶+x¹⁵+x²+1 over a frame. */

const table = (bits: 8 | 16, polynomial: number): Uint16Array => {
  const top = 1 << (bits - 1);
  return Uint16Array.from({ length: 256 }, (_, byte) => {
    let crc = byte << (bits - 8);
    for (let i = 0; i < 8; i++) crc = crc & top ? (crc << 1) ^ polynomial : crc << 1;
    return crc & (top * 2 - 1);
  });
};
const TABLE_8 = table(8, 0x07);
const TABLE_16 = table(16, 0x8005);

/** over bytes `from` to before `to` */
export function crc8(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let i = from; i < to; i++) crc = TABLE_8[crc ^ bytes[i]];
  return crc;
}

/** The same, going on from `crc`. A frame with its own checksum at its end comes to 0. */
export function crc16(bytes: Uint8Array, from: number, to: number, crc = 0): number {
  let sum = crc;
  for (let i = from; i < to; i++) sum = ((sum << 8) & 0xff00) ^ TABLE_16[(sum >> 8) ^ bytes[i]];
  return sum;
}
