// The chart library is served from its own jar; only that it is there is said to the checks of the page's code.
declare module '*/uPlot.esm.js' {
  const uPlot: any;
  export default uPlot;
}
