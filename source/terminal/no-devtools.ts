/**
 * Stands in for `react-devtools-core`, and for the web socket beside it, in the bundle. Ink loads them where
 * DEV is `true` in the environment and calls these two; a workbench that people use needs no debugger.
 */
const noDevtools = {
  initialize: (): void => undefined,
  connectToDevTools: (): void => undefined,
};
export default noDevtools;
