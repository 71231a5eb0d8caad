// Light, dark, or for direct sun: black on white with heavy lines.
export const LOOKS = ["auto", "light", "dark", "sun"] as const;
export type Look = (typeof LOOKS)[number];

export const isLook = (value: unknown): value is Look => LOOKS.includes(value as Look);

export function applyLook(look: Look): void {
  document.documentElement.dataset.look = look;
}
