// The core in WebAssembly, for Node, a page or a worker alike: the other side of treadfold.cpp.

const NOT_HERE = 52; // WASI's ENOSYS: the core asks for no files and no clock

/// What the C library is given: a place for last words, and no for an answer.
function wasi(module, core) {
  const imports = Object.fromEntries(WebAssembly.Module.imports(module).map(({ name }) => [name, () => NOT_HERE]));
  imports.fd_write = (_file, parts, count, written) => {
    const view = new DataView(core.memory.buffer);
    let size = 0;
    for (let at = parts; at < parts + 8 * count; at += 8) {
      const length = view.getUint32(at + 4, true);
      core.words += new TextDecoder().decode(new Uint8Array(core.memory.buffer, view.getUint32(at, true), length));
      size += length;
    }
    view.setUint32(written, size, true);
    return 0;
  };
  imports.environ_sizes_get = (count, bytes) => {
    const view = new DataView(core.memory.buffer);
    view.setUint32(count, 0, true);
    view.setUint32(bytes, 0, true);
    return 0;
  };
  return imports;
}

/**
 * Starts the core. `source`: the bytes of treadfold.wasm, or the WebAssembly.Module already made of them.
 * Holds one plan at a time. Should the core stop on a broken invariant, the call throws and so does every later one: start anew.
 */
export async function start(source) {
  const module = source instanceof WebAssembly.Module ? source : await WebAssembly.compile(source);
  const core = { memory: null, words: '', stopped: null };
  const { exports } = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi(module, core) });
  core.memory = exports.memory;
  exports._initialize();

  /// Calls a door with text; its bytes, and whether it returned 1.
  function call(door, input = '') {
    if (core.stopped) throw core.stopped;
    try {
      const text = new TextEncoder().encode(input);
      const room = exports.tf_input(text.length); // may move the memory, so it comes before the view
      new Uint8Array(core.memory.buffer, room, text.length).set(text);
      const done = exports[door]() === 1;
      const bytes = new Uint8Array(core.memory.buffer, exports.tf_answer(), exports.tf_answer_size()).slice();
      return { done, bytes };
    } catch (cause) {
      core.stopped = new Error(`the core stopped: ${core.words.trim() || cause.message}`, { cause });
      throw core.stopped;
    }
  }
  const text = ({ bytes }) => new TextDecoder().decode(bytes);

  return {
    /** A starting job: {risers, units, left, right}, each with a default; undefined if one is none of its choices. */
    newJob(choices) {
      const answer = call('tf_new', JSON.stringify(choices));
      return answer.done ? text(answer) : undefined;
    },
    /** Plans a job file. `planned`: `json` is plan.json, and its files are to be had; else `json` is the problems alone. */
    plan(job) {
      const answer = call('tf_plan', job);
      return { planned: answer.done, json: text(answer) };
    },
    /** Of a job with "cutting": `planned`: `json` is recut.json; else the problems of the job. The plan held stays. */
    recut(job) {
      const answer = call('tf_recut', job);
      return { planned: answer.done, json: text(answer) };
    },
    /** A file of the recut's sheet: 'recut.pdf', 'recut.csv' or its pages as SVG; undefined if the rest cannot be planned. */
    recutFile(job, name) {
      call('tf_recut', job);
      const answer = call('tf_file', name);
      return answer.done ? answer.bytes : undefined;
    },
    /** fold.json of the plan: each piece folding onto its step; undefined if there is no plan. */
    fold() {
      const answer = call('tf_fold');
      return answer.done ? text(answer) : undefined;
    },
    /** The names of the plan's sheets, in their order; the last is all of them in one PDF. */
    files: () => JSON.parse(text(call('tf_files'))),
    /**
     * The names of one piece's full-size templates, with the 'backing' up or the 'pile'; to be had until the next are made.
     * Empty if the piece must not be cut, undefined if there is none.
     */
    templates(piece, side) {
      const answer = call('tf_templates', JSON.stringify({ piece, side }));
      return answer.done ? JSON.parse(text(answer)) : undefined;
    },
    /** The bytes of a sheet or template; undefined if there is none of this name. */
    file(name) {
      const answer = call('tf_file', name);
      return answer.done ? answer.bytes : undefined;
    },
  };
}
