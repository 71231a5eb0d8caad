// Requirement: what unpacking a picture takes is known before anything is unpacked, so that no
// small file makes the service run out of memory or time.

export interface PictureFacts {
  format: "jpeg" | "png" | "webp";
  widthPx: number;
  heightPx: number;
  /** Bytes of unpacked picture that have to be held at once; 0 where it comes row by row. */
  heldBytes: number;
  /** What stands in the file packed beside the picture itself: texts and colour profiles. */
  packed: Uint8Array[];
  /** How often the decoder goes over the whole picture. */
  passes: number;
  /** Pieces of the file that are no part of the picture itself. */
  extras: number;
}

/** The four signs that name a piece of a file, as Latin letters. */
export const signsAt = (bytes: Uint8Array, at: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + 4));

/** For numbers of the file at their places. */
export const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
