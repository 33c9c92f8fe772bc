/**
 * Stands in for `is-in-ci` in the bundle. Ink asks it and then draws nothing where CI is set, even to an empty
 * string. Whether the workbench runs at all is decided before Ink is loaded (platform/capabilities.ts).
 */
const isInCi = false;
export default isInCi;
