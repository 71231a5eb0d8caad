// Addresses of pictures for showing, one a picture for as long as the page lives.
const addresses = new WeakMap<Blob, string>();

export function pictureAddress(blob: Blob): string {
  let address = addresses.get(blob);
  if (address === undefined) {
    address = URL.createObjectURL(blob);
    addresses.set(blob, address);
  }
  return address;
}
