// What the tests use of the package, which carries no types.
declare module "@lhncbc/ucum-lhc" {
  interface Answer {
    readonly status: "succeeded" | "failed" | "error";
    readonly toVal: number | null;
    readonly msg?: readonly string[];
  }
  const package_: { readonly UcumLhcUtils: { getInstance(): { convertUnitTo(from: string, value: number, to: string): Answer } } };
  export default package_;
}
