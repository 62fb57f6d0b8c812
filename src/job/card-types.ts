/** What the job page is given beside the knowledge: words for its questions, and a card for each check and repair. Plain JSON. */

export type Driving = 'stop' | 'home-only' | 'gently' | 'as-usual';

export interface Question {
  readonly id: string;
  readonly title: string;
  readonly asks: string;
  /** How else people say it: for the search. */
  readonly also: readonly string[];
}

export interface SymptomQuestion extends Question {
  readonly group: string;
  readonly driving: Driving;
  readonly drivingWhy: string;
}

export interface TraitQuestion extends Question {
  readonly values: readonly { readonly id: string; readonly title: string; readonly look: string }[];
}

export interface CodeWords {
  readonly meaning: string;
  readonly lamp: string;
  readonly driving: Driving;
  readonly drivingWhy: string;
}

export interface MonitorWords {
  readonly id: string;
  readonly title: string;
  readonly continuous: boolean;
  readonly before: readonly string[];
  readonly drive: readonly string[];
  readonly minutes: number;
}

/** For the start of a job, and for its proof. */
export interface JobWords {
  /** Hash of the content. */
  readonly hash: string;
  readonly symptoms: readonly SymptomQuestion[];
  readonly conditions: readonly Question[];
  readonly recentWork: readonly Question[];
  readonly traits: readonly TraitQuestion[];
  /** Parts that somebody may have replaced. */
  readonly parts: readonly Omit<Question, 'asks'>[];
  readonly tools: readonly Omit<Question, 'asks'>[];
  /** Words of a group of codes, and the group of each code. */
  readonly codeGroups: Readonly<Record<string, CodeWords>>;
  readonly codes: Readonly<Record<string, string>>;
  readonly families: Readonly<
    Record<string, { readonly firstLook: string; readonly driving: string; readonly monitors: readonly string[] }>
  >;
  readonly monitors: Readonly<Record<string, MonitorWords>>;
  /** For each kind of content, ids that had other names before. */
  readonly renamed: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

export interface CautionWords {
  readonly signal: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';
  readonly title: string;
  readonly symbols: readonly string[];
  readonly hazard: string;
  readonly avoid: readonly string[];
  readonly handOver: string | null;
}

export interface OutcomeWords {
  readonly id: string;
  readonly title: string;
  readonly means: string;
  /** The outcome holds for a reading r with above <= r < below. Null: by eye, not by number. */
  readonly when: { readonly above: number | null; readonly below: number | null } | null;
  readonly limits: string;
}

export interface CheckCard {
  readonly asks: string;
  readonly why: string;
  readonly skill: string;
  readonly engine: string;
  /** Ids of the cautions, gravest first. */
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
  readonly reading: {
    readonly what: string;
    readonly unit: string;
    readonly at: string;
    readonly maker: string | null;
    readonly source: string;
  } | null;
  readonly trap: string;
  readonly outcomes: readonly OutcomeWords[];
  /** Calculators of the bench that serve it. */
  readonly sums: readonly { readonly title: string; readonly href: string }[];
}

export interface PartWords {
  readonly id: string;
  readonly title: string;
  readonly count: number;
  readonly price: string;
  readonly only: string | null;
  readonly oneTimeUse: boolean;
  readonly advice: string | null;
}

export interface RepairCard {
  readonly what: string;
  readonly title: string;
  readonly engine: string;
  readonly cautions: readonly string[];
  readonly parts: readonly PartWords[];
  readonly steps: readonly string[];
  readonly torque: readonly {
    readonly what: string;
    readonly newtonMetres: string;
    readonly poundFeet: string;
    readonly note: string | null;
    readonly source: string;
  }[];
  readonly verify: string;
  readonly relearn: readonly string[];
  readonly closeUp: readonly string[];
  readonly professionalOnly: boolean;
}

export interface SetUpCard {
  readonly title: string;
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
  readonly whileThere: readonly string[];
}

/** What cards refer to. */
export interface SharedCards {
  readonly setUps: Readonly<Record<string, SetUpCard>>;
  readonly cautions: Readonly<Record<string, CautionWords>>;
}
