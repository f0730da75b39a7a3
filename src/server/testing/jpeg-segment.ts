/** A segment right after SOI of a real JPEG. */
export function withSegment(jpeg: Buffer, marker: number, data: Uint8Array): Buffer {
  const head = Buffer.from([0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), head, data, jpeg.subarray(2)]);
}
