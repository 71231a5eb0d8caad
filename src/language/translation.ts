/** The same keys in another language: a missing or a surplus one does not compile. */
export type Translation<Original> = { readonly [Key in keyof Original]: string };
