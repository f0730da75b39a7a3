/** Our own mistake, met while drawing a sheet: says so, keeps what was recorded, offers the way back. */
import { Component, type ReactNode } from 'react';

interface FaultState {
  readonly fault: string | null;
}

export class FaultLeaf extends Component<{ readonly children: ReactNode }, FaultState> {
  override state: FaultState = { fault: null };

  static getDerivedStateFromError(thrown: unknown): FaultState {
    return { fault: thrown instanceof Error ? thrown.message : String(thrown) };
  }

  override render(): ReactNode {
    if (this.state.fault === null) return this.props.children;
    return (
      <div className="alone" role="alert">
        <h1>This sheet could not be drawn</h1>
        <p>That is our mistake, not yours. What was recorded is kept.</p>
        <p>Report it with these words: {this.state.fault}</p>
        <p>
          <a href={window.location.pathname}>Unroll the sheet again</a>
        </p>
      </div>
    );
  }
}
