// The ZIP library with the checksum of Node's own zlib, which is some ten times as fast as the one
// in JavaScript that it brings: in a bag of photos that took longer than all else together.
import { createRequire } from "node:module";
import { crc32 } from "node:zlib";
import { ZipFile } from "yazl";

const require = createRequire(import.meta.url);
const checksum: { unsigned(bytes: Buffer, previous?: number): number } = createRequire(
  require.resolve("yazl"),
)("buffer-crc32");
checksum.unsigned = (bytes, previous = 0) => crc32(bytes, previous);

export { ZipFile };
