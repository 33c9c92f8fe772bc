import ts from 'typescript';
import { emptyNames, kernelLines, mostLines, rooms } from './rooms.ts';

/** The text of each file, by its path under `source/`: `grid/layout.ts`. */
export type Tree = ReadonlyMap<string, string>;

/** Something that the table does not allow: which file, which line, what. */
export interface Violation {
  readonly file: string;
  readonly line: number;
  readonly rule:
    | 'room'
    | 'types-only'
    | 'package'
    | 'node'
    | 'outside'
    | 'cycle'
    | 'length'
    | 'name'
    | 'missing'
    | 'eager';
  readonly message: string;
}

interface Import {
  readonly target: string;
  readonly line: number;
  readonly typeOnly: boolean;
  /** `import()`: loaded when the code runs, not when the file is. */
  readonly lazy: boolean;
}

const lineOf = (source: ts.SourceFile, node: ts.Node): number =>
  source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;

const roomOf = (file: string): string => (file.includes('/') ? file.slice(0, file.indexOf('/')) : file);

const isTypeImport = (clause: ts.ImportClause | undefined): boolean => {
  if (!clause) return false;
  if (clause.isTypeOnly) return true;
  const bindings = clause.namedBindings;
  return (
    clause.name === undefined &&
    bindings !== undefined &&
    ts.isNamedImports(bindings) &&
    bindings.elements.length > 0 &&
    bindings.elements.every((element) => element.isTypeOnly)
  );
};

const isTypeExport = (node: ts.ExportDeclaration): boolean =>
  node.isTypeOnly ||
  (node.exportClause !== undefined &&
    ts.isNamedExports(node.exportClause) &&
    node.exportClause.elements.length > 0 &&
    node.exportClause.elements.every((element) => element.isTypeOnly));

/** Every module that a file names, in any of the ways that the language has. */
function importsOf(source: ts.SourceFile): Import[] {
  const found: Import[] = [];
  const add = (specifier: ts.Node | undefined, node: ts.Node, typeOnly: boolean, lazy: boolean) => {
    // A specifier that is computed could be anything, so it is listed as a name that no rule allows.
    const target = specifier && ts.isStringLiteralLike(specifier) ? specifier.text : '(computed)';
    found.push({ target, line: lineOf(source, node), typeOnly, lazy });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, node, isTypeImport(node.importClause), false);
    else if (ts.isExportDeclaration(node) && node.moduleSpecifier)
      add(node.moduleSpecifier, node, isTypeExport(node), false);
    else if (ts.isImportEqualsDeclaration(node) && ts.isExternalModuleReference(node.moduleReference))
      add(node.moduleReference.expression, node, node.isTypeOnly, false);
    else if (ts.isImportTypeNode(node))
      add(ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, node, true, false);
    else if (ts.isCallExpression(node)) {
      const { expression } = node;
      if (expression.kind === ts.SyntaxKind.ImportKeyword) add(node.arguments[0], node, false, true);
      else if (ts.isIdentifier(expression) && expression.text === 'require')
        add(node.arguments[0], node, false, false);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Resolves `../grid/layout.ts` as seen from a file; null where it leaves the tree. */
function resolve(file: string, target: string): string | null {
  const parts = file.split('/').slice(0, -1);
  for (const part of target.split('/')) {
    if (part === '..') {
      if (parts.length === 0) return null;
      parts.pop();
    } else if (part !== '.') parts.push(part);
  }
  return parts.join('/');
}

const globals = new Set([
  'process',
  'console',
  'performance',
  'setTimeout',
  'setInterval',
  'crypto',
  'Buffer',
]);

/** Uses of the clock, of randomness and of the process. A local of the same name is not told apart: rename it. */
function outsideUses(source: ts.SourceFile): { what: string; line: number }[] {
  const uses: { what: string; line: number }[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node)) {
      const what = `${node.expression.getText(source)}.${node.name.text}`;
      if (what === 'Math.random' || what === 'Date.now') uses.push({ what, line: lineOf(source, node) });
    }
    if (ts.isNewExpression(node) && node.expression.getText(source) === 'Date') {
      uses.push({ what: 'new Date', line: lineOf(source, node) });
    }
    if (ts.isIdentifier(node) && globals.has(node.text)) {
      const { parent } = node;
      const isName =
        (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
        (ts.isPropertyAssignment(parent) && parent.name === node) ||
        (ts.isPropertySignature(parent) && parent.name === node);
      if (!isName) uses.push({ what: node.text, line: lineOf(source, node) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return uses;
}

/** One cycle of files a strongly connected group, written from its first file. */
function cyclesIn(edges: ReadonlyMap<string, readonly string[]>): string[][] {
  const state = new Map<string, 'open' | 'done'>();
  const cycles: string[][] = [];
  const trail: string[] = [];
  const visit = (file: string): void => {
    state.set(file, 'open');
    trail.push(file);
    for (const next of edges.get(file) ?? []) {
      if (state.get(next) === 'open') cycles.push([...trail.slice(trail.indexOf(next)), next]);
      else if (!state.has(next)) visit(next);
    }
    trail.pop();
    state.set(file, 'done');
  };
  for (const file of edges.keys()) if (!state.has(file)) visit(file);
  return cycles;
}

/** Everything in a tree that breaks the rules of the rooms. */
export function violationsIn(tree: Tree): Violation[] {
  const violations: Violation[] = [];
  const report = (file: string, line: number, rule: Violation['rule'], message: string) =>
    violations.push({ file, line, rule, message });
  const edges = new Map<string, string[]>();
  const eager = new Map<string, string[]>();
  for (const [file, text] of tree) {
    const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
    const room = roomOf(file);
    const rules = rooms.get(room);
    edges.set(file, []);
    eager.set(file, []);
    if (!rules) {
      report(file, 1, 'room', `there is no room '${room}'`);
      continue;
    }
    const lines = text.replace(/\n$/, '').split('\n').length;
    const most = file === 'argument/kernel.ts' ? kernelLines : mostLines;
    if (lines > most) report(file, lines, 'length', `${lines} lines, at most ${most}`);
    const name = file.slice(file.lastIndexOf('/') + 1).replace(/\..*$/, '');
    if (emptyNames.has(name)) report(file, 1, 'name', `'${name}' says nothing about what is in it`);
    if (!rules.outside) {
      for (const { what, line } of outsideUses(source)) {
        report(file, line, 'outside', `${what} is for platform/ and commands/: take it as an argument`);
      }
    }
    for (const { target, line, typeOnly, lazy } of importsOf(source)) {
      if (target.startsWith('.')) {
        const other = resolve(file, target);
        if (other === null || !tree.has(other)) {
          report(file, line, 'missing', `${target} is no file of source/`);
          continue;
        }
        edges.get(file)!.push(other);
        if (!typeOnly && !lazy) eager.get(file)!.push(other);
        const otherRoom = roomOf(other);
        if (file === 'argument/kernel.ts' && otherRoom !== 'grid') {
          report(file, line, 'room', `the kernel imports only grid/, not ${other}`);
        } else if (room === 'main.ts' && otherRoom === 'commands') {
        } else if (otherRoom === room || rules.imports.includes(otherRoom)) {
        } else if (!rules.typesOnly.includes(otherRoom)) {
          report(file, line, 'room', `${room} may not import ${otherRoom} (${other})`);
        } else if (!typeOnly) {
          report(file, line, 'types-only', `${room} may import only types from ${otherRoom} (${other})`);
        }
      } else if (target.startsWith('node:')) {
        if (!rules.outside) report(file, line, 'node', `${target}: node: is for platform/ and commands/`);
      } else if (!rules.packages.some((each) => target === each || target.startsWith(`${each}/`))) {
        report(file, line, 'package', `${room} may not import ${target}`);
      }
    }
  }
  for (const cycle of cyclesIn(edges)) report(cycle[0], 1, 'cycle', cycle.join(' -> '));
  for (const trail of eagerScreens(eager)) {
    report(trail[0], 1, 'eager', `loads the screen before it is asked for: ${trail.join(' -> ')}`);
  }
  return violations;
}

/** The files of `commands/` that are about the workbench; whoever needs them loads them lazily. */
const ofTheWorkbench: ReadonlySet<string> = new Set([
  'commands/open.ts',
  'commands/plain.ts',
  'commands/keys.ts',
  'commands/settings-file.ts',
  'commands/wishes.ts',
]);

/**
 * What is loaded with what: `main.ts` and every file of `commands/` must not reach terminal/, and those about
 * the workbench must not reach its components, before they are asked for.
 */
function eagerScreens(eager: ReadonlyMap<string, readonly string[]>): string[][] {
  const roots = [...eager.keys()].filter((file) => file === 'main.ts' || file.startsWith('commands/'));
  return roots.flatMap((root) => {
    const forbidden = ofTheWorkbench.has(root) ? 'terminal/components/' : 'terminal/';
    const from = new Map<string, string | null>([[root, null]]);
    for (const file of from.keys()) {
      if (file.startsWith(forbidden)) {
        const trail: string[] = [];
        for (let at: string | null = file; at !== null; at = from.get(at) ?? null) trail.unshift(at);
        return [trail];
      }
      for (const next of eager.get(file) ?? []) if (!from.has(next)) from.set(next, file);
    }
    return [];
  });
}
