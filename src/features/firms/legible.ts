// WCAG 2.2, "relative luminance" and "contrast ratio" in its glossary; 1.4.3 asks for 4.5 : 1.
export const LEGIBLE_CONTRAST = 4.5;

/** The contrast ratio of a colour ("#14524d") with white: 1 to 21. */
export function contrastWithWhite(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05);
}
