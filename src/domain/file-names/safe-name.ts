// Requirement: a name that somebody typed becomes the name of a file on any system, and one that
// shows its ending where it is. Sources: RFC 6266, 4.3 (no path in a file's name), names that
// Windows keeps for devices and ends that it drops (from memory), 255 bytes a name (POSIX NAME_MAX
// as common systems set it), Unicode Technical Report 36, 2.5 (bidirectional text spoofing).

/** Most bytes of a file's name in UTF-8. */
export const NAME_BYTES_MOST = 255;

const RESERVED = /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?=\.|$)/iu;
/** Separators of paths and streams, what turns the reading direction, and control characters. */
const UNFIT = /[/\\:\p{Cc}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

/** Whether Windows keeps the name, with any ending, for a device. */
export const isReserved = (name: string): boolean => RESERVED.test(name);

/**
 * The name with its ending, fit for any system: unfit signs become "_", and the part before the
 * ending is shortened to what fits.
 * @param stem as typed
 * @param ending with its dot, such as ".pdf"; or nothing
 */
export function safeFileName(stem: string, ending: string): string {
  const fit = stem.toWellFormed().replaceAll(UNFIT, "_").replace(/^\.+/, "_").trim();
  const named = isReserved(fit) || fit === "" ? `_${fit}` : fit;
  const room = NAME_BYTES_MOST - bytesOf(ending);
  let short = "";
  for (const { segment } of new Intl.Segmenter("und").segment(named)) {
    if (bytesOf(short + segment) > room) break;
    short += segment;
  }
  return `${short.replace(/[. ]+$/, "") || "_"}${ending}`;
}

const bytesOf = (text: string): number => new TextEncoder().encode(text).length;
