/// A value in a job by its JSON Pointer (RFC 6901); setting one copies what it changes and shares the rest.
type Node = Record<string, unknown> | unknown[];

const steps = (pointer: string) => pointer.split('/').slice(1).map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));

export function at(root: unknown, pointer: string): unknown {
  return steps(pointer).reduce<unknown>((node, key) => (node as Record<string, unknown> | undefined)?.[key], root);
}

/// `undefined` takes the member away. Objects on the way are made where there are none.
export function put<T>(root: T, pointer: string, value: unknown): T {
  const set = (node: Node | undefined, [key, ...rest]: string[]): Node => {
    const copy: Node = Array.isArray(node) ? [...node] : { ...(node ?? {}) };
    const inner = (copy as Record<string, unknown>)[key!];
    const next = rest.length ? set(inner as Node | undefined, rest) : value;
    if (next !== undefined) (copy as Record<string, unknown>)[key!] = next;
    else if (Array.isArray(copy)) copy.splice(Number(key), 1);
    else delete (copy as Record<string, unknown>)[key!];
    return copy;
  };
  return set(root as Node, steps(pointer)) as T;
}
