declare module "jstat" {
  const library: { jStat: { normal: { cdf(x: number, mean: number, deviation: number): number } } };
  export default library;
}
