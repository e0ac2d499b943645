// What the tests take of jstat.
declare module "jstat" {
  const jstat: { readonly jStat: { readonly studentt: { inv(share: number, degrees: number): number } } };
  export default jstat;
}
