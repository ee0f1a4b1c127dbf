/** Catches what breaks while drawing. The book is in its store and in storage, so it can still be saved from here. */
import { Component, type ErrorInfo, type ReactNode } from 'react';
import { saveBookFile } from '../state/files.ts';

interface GuardState {
  readonly broken: Error | null;
}

export class Guard extends Component<{ readonly children: ReactNode }, GuardState> {
  override state: GuardState = { broken: null };

  static getDerivedStateFromError(broken: Error): GuardState {
    return { broken };
  }

  override componentDidCatch(broken: Error, info: ErrorInfo): void {
    console.error(broken, info.componentStack);
  }

  override render(): ReactNode {
    const { broken } = this.state;
    if (broken === null) return this.props.children;
    return (
      <main className="broken">
        <h1>The window broke, your book did not.</h1>
        <p>It is kept in this browser. Save it as a file to be sure, then show the window again.</p>
        <p className="buttons">
          <button type="button" className="main" onClick={() => saveBookFile()}>Save the book</button>
          <button type="button" className="main" onClick={() => this.setState({ broken: null })}>Show the window again</button>
        </p>
        <details>
          <summary>Details</summary>
          <pre>{broken.message}</pre>
        </details>
      </main>
    );
  }
}
