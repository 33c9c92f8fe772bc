/** The few calls of the `logic-solver` package (a SAT solver) that the judges use; it ships no types. */
declare module 'logic-solver' {
  namespace logic {
    /** A variable's number, negative for its negation. */
    type Term = number;
    interface Formula {
      readonly type: string;
    }
    type Operand = Term | Formula;
    interface Solution {
      /** Names of the variables that are true. */
      getTrueVars(): string[];
    }
    class Solver {
      getVarNum(name: string): number;
      require(...operands: Operand[]): void;
      solve(): Solution | null;
      /** Solves with one more formula, for this call only. */
      solveAssuming(assumption: Operand): Solution | null;
    }
    function or(...operands: Operand[]): Formula;
    function and(...operands: Operand[]): Formula;
    function disablingAssertions<T>(work: () => T): T;
  }
  export = logic;
}
