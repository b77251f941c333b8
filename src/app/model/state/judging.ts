import type { StoreApi } from "zustand/vanilla";
import type { Mark, NotchMethod } from "../../../core/plan/index.ts";
import { REFUSED, STORED } from "../../../words/index.ts";
import type { ChangeAsk, Computer, MadeChange } from "../compute/index.ts";
import {
  builtBy,
  type Command,
  calledOf,
  type Editor,
  isAnyMade,
  markMade,
  nameOf,
  type Outcome,
  setProgress,
  takenBack,
  touchesPlan,
  withMade,
} from "../document/index.ts";
import { type AppState, type AskedChange, type ChangeAnswer, NO_CHANGE } from "./state-types.ts";

/** A change of the job that waits for its turn: what it would make of the job, and how it is done. */
interface Edit {
  readonly name: (editor: Editor) => string;
  readonly peek: (editor: Editor) => ReturnType<Editor["peek"]>;
  /** `with`: what goes into the same step. */
  readonly apply: (editor: Editor, also: (command: Command) => Command) => Outcome;
  /** Whether bars can be cut loose in the same step. */
  readonly cuts: boolean;
}

interface Turn {
  readonly gesture?: string | undefined;
  /** What a drag may be joined with. */
  readonly command?: Command;
  readonly edit: Edit | (() => Promise<Edit | undefined>);
}

/** Where every change of the job in hand is done. */
export interface Judging {
  /** `done` is called once it is done: at once, or as it is answered; not where it is refused or cancelled. */
  run(command: Command, gesture?: string, done?: () => void): Outcome;
  step(which: "undo" | "redo", name: string): Outcome;
  mark(bar: string, mark: Mark, by?: NotchMethod): void;
  answer(how: ChangeAnswer): void;
  /** Whether a change waits. */
  waits(): boolean;
  /** Another job is in hand: what waits is not done. */
  drop(): void;
}

const COMING: Outcome = { ok: true, changed: true };

/**
 * Every change of the job goes through here, one after the other. One that may touch what is made is judged by the
 * worker before it is done: where it touches nothing, it is done; where it does, it waits for an answer
 * (`asked` in the state). A job with nothing made waits for nobody.
 */
export function judging(ports: {
  readonly state: StoreApi<AppState>;
  readonly computer: Computer;
  readonly editor: () => Editor | undefined;
  readonly reported: (name: string, outcome: Outcome) => Outcome;
  readonly done: () => void;
}): Judging {
  const { state, computer, reported } = ports;
  let turns: Turn[] = [];
  let isGoing = false;
  let onAnswer: ((how: ChangeAnswer) => void) | undefined;

  const ask = (asked: AppState["asked"]): void =>
    state.setState((all) => {
      const { asked: _asked, ...rest } = all;
      return asked ? { ...rest, asked } : rest;
    }, true);

  /** Does what needs no judging at once; anything else, and all that comes meanwhile, waits for its turn. */
  function take(turn: Turn, editor: Editor): Outcome {
    const { edit } = turn;
    if (!isGoing && typeof edit !== "function") {
      const done = unlessJudged(editor, edit, edit.name(editor));
      if (!("after" in done)) return done;
    }
    const last = turns.at(-1);
    // one drag is judged once, as it ends
    const { gesture, command } = turn;
    const goesOn = turns.length > 1 && gesture !== undefined && last?.gesture === gesture;
    if (goesOn && command && last?.command)
      turns[turns.length - 1] = commandTurn(both(last.command, command), gesture);
    else turns.push(turn);
    if (!isGoing) void go();
    return COMING;
  }

  async function go(): Promise<void> {
    isGoing = true;
    try {
      for (let turn = turns[0]; turn; turn = turns[0]) {
        const editor = ports.editor();
        if (editor) await judged(turn, editor).catch(() => notJudged(turn, editor));
        // another job may be in hand by now, with a turn of its own at the head
        if (turns[0] === turn) turns.shift();
        ports.done();
      }
    } finally {
      isGoing = false;
    }
  }

  async function judged(turn: Turn, editor: Editor): Promise<void> {
    const stays = (): boolean => ports.editor() === editor && turns[0] === turn;
    const edit = typeof turn.edit === "function" ? await turn.edit() : turn.edit;
    if (!edit || !stays()) return;
    const name = edit.name(editor);
    const about = unlessJudged(editor, edit, name);
    if (!("after" in about)) return;
    await computer.settled();
    const found = (await computer.ask("change", about))?.answer;
    if (!stays()) return;
    if (!found) return notJudged(turn, editor);
    const { stay, records } = found;
    const fast = edit.cuts ? found.fast : [];
    const isTouched = stay.bars.length + stay.gone.length + stay.lost.length + fast.length > 0;
    const how = isTouched ? await answered({ name, stay, fast }, about, stays) : "stay";
    const { asked } = state.getState();
    ask(undefined);
    if (how === "cancel" || !stays()) return;
    const cut = how === "loose" ? fast : [];
    const list = (cut.length > 0 && asked?.loose) || stay;
    const labels = labelsFor(editor, list);
    const outcome = finished(editor, edit, name, (command) => withMade(command, records, cut));
    if (outcome.ok) state.setState({ changed: { name, ...list, labels } });
  }

  /**
   * Does an edit that cannot change what is wanted of a bar that is made; of any other, what is to be judged. Where
   * nothing is made the job is read once, as the edit is done. What keeps a job from being one is mended unjudged.
   */
  function unlessJudged(editor: Editor, edit: Edit, name: string): Outcome | ChangeAsk {
    const { document, read } = editor.state();
    const isJudged = read.ok && isAnyMade(document);
    const seen = isJudged ? edit.peek(editor) : undefined;
    if (seen && !seen.ok) return reported(name, seen);
    if (!seen?.read.ok || !touchesPlan(document, seen.document))
      return finished(editor, edit, name, (c) => c);
    return {
      after: seen.read.job,
      back: takenBack(document, seen.document),
      built: builtBy(document, seen.document),
    };
  }

  /** Asks, and figures beside the question what becomes of it with the fast bars cut loose. */
  async function answered(asked: AskedChange, about: ChangeAsk, stays: () => boolean): Promise<ChangeAnswer> {
    const how = new Promise<ChangeAnswer>((resolve) => {
      onAnswer = resolve;
    });
    ask(asked);
    if (asked.fast.length > 0)
      void computer.ask("loosened", { ...about, loose: asked.fast }).then((told) => {
        if (told && stays() && state.getState().asked === asked) ask({ ...asked, loose: told.answer });
      });
    const answer = await how;
    onAnswer = undefined;
    return answer;
  }

  function finished(editor: Editor, edit: Edit, name: string, also: (command: Command) => Command): Outcome {
    const { did } = editor.state();
    const outcome = reported(name, edit.apply(editor, also));
    // what the step before did to bars that are made is not to be read under the name of this one
    if (outcome.ok && editor.state().did !== did) state.setState({ changed: NO_CHANGE });
    return outcome;
  }

  function notJudged({ edit }: Turn, editor: Editor): void {
    const name = typeof edit === "function" ? "" : edit.name(editor);
    reported(name, { ok: false, lines: [REFUSED.notJudged] });
  }

  const commanded = (command: Command, gesture?: string, done?: () => void): Edit => ({
    name: (editor) => nameOf(command, editor.state().document),
    peek: (editor) => editor.peek(command),
    apply(editor, also) {
      const outcome = editor.run(also(command), gesture);
      if (outcome.ok) done?.();
      return outcome;
    },
    cuts: true,
  });

  const commandTurn = (command: Command, gesture?: string, done?: () => void): Turn => ({
    gesture,
    command,
    edit: commanded(command, gesture, done),
  });

  /** What marking a step sets is what the plan says when its turn comes. */
  async function marking(bar: string, mark: Mark, by?: NotchMethod): Promise<Edit | undefined> {
    await computer.settled();
    const told = await computer.ask("marked", { bar, mark, ...(by ? { by } : {}) });
    const end = typeof mark === "string" ? undefined : mark.notched;
    if (told?.answer) return commanded(markMade(bar, told.answer, end));
    return typeof mark === "string" ? commanded(setProgress(bar, mark)) : undefined;
  }

  const noJob: Outcome = { ok: false, lines: [STORED.noJob] };

  return {
    run(command, gesture, done) {
      const editor = ports.editor();
      if (!editor) return reported(nameOf(command, {}), noJob);
      return take(commandTurn(command, gesture, done), editor);
    },
    step(which, name) {
      const editor = ports.editor();
      if (!editor) return reported(name, noJob);
      const edit: Edit = {
        name: () => name,
        peek: (one) => one.peekStep(which),
        apply: (one) => one[which](),
        cuts: false,
      };
      return take({ edit }, editor);
    },
    mark(bar, mark, by) {
      const editor = ports.editor();
      if (editor) take({ edit: () => marking(bar, mark, by) }, editor);
    },
    answer: (how) => onAnswer?.(how),
    waits: () => turns.length > 0,
    drop() {
      turns = [];
      onAnswer?.("cancel");
      state.setState({ changed: NO_CHANGE });
    },
  };
}

const labelsFor = (editor: Editor, { bars, gone, lost }: MadeChange): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...bars.map((v) => v.bar), ...gone, ...lost].map((id) => [
      id,
      calledOf(editor.state().document, "bar", id),
    ]),
  );

/** One drag after the other, as one. */
const both = (first: Command, then: Command): Command => ({
  name: then.name,
  edit(document) {
    const edited = first.edit(document);
    return edited.ok ? then.edit(edited.document) : edited;
  },
});
