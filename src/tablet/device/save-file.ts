/** Hands a file to the person, as the browser saves files. */
export function saveFile(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // Browsers begin to read the file after the click has returned.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
