/** The thin binding between the stores and React. */
import { useStore } from 'zustand';
import type { Book } from '../../book/document.ts';
import type { Plan } from '../../plan/plan.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import { type BookState, bookStore } from './bookStore.ts';
import { type Session, session } from './session.ts';

/** A part of the session; renders again only when that part changes. */
export function useSession<T>(select: (state: Session) => T): T {
  return useStore(session, select);
}

/** The plan as rows show it: what is foreseen of the next one where that is under way, for nothing else than to be seen. */
export function useSeenPlan(): Plan | null {
  return useStore(session, (s) => s.foreseen ?? s.plan);
}

/** A part of the book's state with history and saving. */
export function useBookState<T>(select: (state: BookState) => T): T {
  return useStore(bookStore, select);
}

/** A part of the book. */
export function useBook<T>(select: (book: Book) => T): T {
  return useStore(bookStore, (s) => select(s.history.present));
}

/** One setting of the plan. */
export function useSetting<K extends keyof PlanSettings>(key: K): PlanSettings[K] {
  return useStore(bookStore, (s) => s.history.present.settings[key]);
}
