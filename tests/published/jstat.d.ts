// What the tests take of jstat.
declare module "jstat" {
  export const jStat: { readonly studentt: { inv(share: number, degrees: number): number } };
}
