/** What is used of pngjs, which brings no types. */
declare module "pngjs" {
  export class PNG {
    constructor(size: { readonly width: number; readonly height: number });
    readonly width: number;
    readonly height: number;
    readonly data: Buffer;
    static readonly sync: {
      read(bytes: Buffer): PNG;
      write(picture: PNG, options?: { readonly colorType?: 0 | 2 | 4 | 6; readonly inputHasAlpha?: boolean }): Buffer;
    };
  }
}
