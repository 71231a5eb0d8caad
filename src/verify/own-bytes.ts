/** pkijs hands buffers on whole, so it gets ones that hold nothing else. */
export const ownBytes = (bytes: Uint8Array): ArrayBuffer => new Uint8Array(bytes).buffer;
