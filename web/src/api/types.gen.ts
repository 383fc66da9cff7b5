// Written by `cargo xtask types` from the program's description of its API. Do not edit.

export interface paths {
    readonly "/api/at/{step}/back.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The back after a step. */
        readonly get: operations["back"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/at/{step}/eye": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The eye check after a step, against a quilt's wish. */
        readonly get: operations["eye"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/at/{step}/front.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The front after a step; steps after `sewn` are chalk. */
        readonly get: operations["front"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/at/{step}/offers/{no}.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** A proposal laid on the piece to look. */
        readonly get: operations["preview"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/at/{step}/offers/{no}/cuts/{patch}.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The cloth of a patch of a proposal, with the marks and the lines by which it is cut. */
        readonly get: operations["cut"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/at/{step}/table": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** What lies on the table after a step. */
        readonly get: operations["table"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/cards": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** What photographs are measured by. */
        readonly get: operations["cards"];
        /** Keeps how large the cards are on the paper; pictures given from now on are measured by it. */
        readonly put: operations["measure_cards"];
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/cards.pdf": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The cards to print and cut out, 2 inches a side. */
        readonly get: operations["cards_to_print"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** Every job that is known, so that a page opened anew finds what it began. */
        readonly get: operations["jobs"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/jobs/{job}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** How far a job has come. */
        readonly get: operations["job"];
        readonly put?: never;
        readonly post?: never;
        /** Asks a job to stop; what is there by then is a sound piece, and is kept. */
        readonly delete: operations["stop_job"];
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/looks/{look}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** A look that was begun. */
        readonly get: operations["see"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/looks/{look}/{place}/back.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The back as it would be. */
        readonly get: operations["look_back"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/looks/{look}/{place}/front.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The front as it would be. */
        readonly get: operations["look_front"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/papers": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The papers there are, in the order of the work. */
        readonly get: operations["papers"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Gives a picture, its bytes as they are. It is read apart, and asked for by its number. */
        readonly post: operations["give_photo"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** A picture that was given. */
        readonly get: operations["photo"];
        readonly put?: never;
        readonly post?: never;
        /** Forgets a picture that was read. */
        readonly delete: operations["forget_photo"];
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/as_found": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Takes the whole piece as it was found: one patch with its picture, in the place of all that is known. */
        readonly post: operations["as_found"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/caught_up": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Takes in what was sewn since, patch by patch of what it is said to be, and measures the outline. */
        readonly post: operations["caught_up"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/eye": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The eye check of a piece in a picture, known here or not. */
        readonly get: operations["photo_eye"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/found/{no}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        /** Puts the outline of a found cloth right: its whole ring, or as it was found. */
        readonly put: operations["correct_found"];
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/from_above.png": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The table as from straight above. */
        readonly get: operations["photo_from_above"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/kept": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Puts what is ticked into the heap, all of it or none. The photograph is done with then. */
        readonly post: operations["keep_found"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/measured": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Puts what was seen in the place of what was planned, and keeps its picture. */
        readonly post: operations["take_measured"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/piece": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Holds a found cloth, as the piece on the table, against its plan. Nothing is changed. */
        readonly post: operations["compare_piece"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/photos/{photo}/sewn_since": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Reads which patches were sewn on since the last step. Nothing is changed. */
        readonly post: operations["sewn_since"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Begins a quilt: an empty table. */
        readonly post: operations["begin_quilt"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/asks": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Asks for something that may change the log. */
        readonly post: operations["ask"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/enough": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** Whether the heap has enough for everything that is chosen and planned, and what to buy. */
        readonly get: operations["enough"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/jobs": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Begins to grow, or to grow what-ifs; answers at once. */
        readonly post: operations["begin_job"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/log": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The log of a head. */
        readonly get: operations["log"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/looks": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /**
         * Looks at stages from a head's tip, each by itself. Answers with them, or with the number by which
         *     to ask for them when they take longer than a moment.
         */
        readonly post: operations["look"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/papers/{paper}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /**
         * A paper of a quilt, or all of them as a `booklet`. The answer's heads say what it goes without:
         *     `ragbag-lost-pictures`, how many, and of a booklet `ragbag-left-out`, which papers.
         */
        readonly get: operations["paper"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/stages": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Takes a stage: its steps are planned, in one deed, which unpicking takes back whole. */
        readonly post: operations["take_stage"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/wish": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** What is wished of a quilt. */
        readonly get: operations["wish"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        /** Changes the wish of a quilt: all that is named, or nothing. */
        readonly patch: operations["change_wish"];
        readonly trace?: never;
    };
    readonly "/api/quilts/{quilt}/words": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The maker's own words for a quilt's pattern. */
        readonly get: operations["own_words"];
        /** Keeps the maker's own words for a quilt's pattern. */
        readonly put: operations["keep_words"];
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/stash": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The stash, with what a quilt's plan claims. */
        readonly get: operations["stash"];
        readonly put?: never;
        /** Puts a scrap, or several that are alike, into the heap. */
        readonly post: operations["enter"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/stash/{cloth}.svg": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** One cloth, in true size. */
        readonly get: operations["cloth"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/stash/{cloth}/outline": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** The outline of a cloth. */
        readonly get: operations["cloth_outline"];
        /** Puts the outline of a cloth right; undoing has it again as it was. */
        readonly put: operations["correct_cloth"];
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/undo": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly get?: never;
        readonly put?: never;
        /** Takes the last deed of the workroom back, whatever it was. */
        readonly post: operations["undo"];
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/api/workroom": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** Every quilt and its heads. */
        readonly get: operations["workroom"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
    readonly "/pictures/{hash}": {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        /** A picture of cloth, by its content. */
        readonly get: operations["picture"];
        readonly put?: never;
        readonly post?: never;
        readonly delete?: never;
        readonly options?: never;
        readonly head?: never;
        readonly patch?: never;
        readonly trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        /** @description A print of the heap that looks like a cloth that was found. */
        readonly AlikeView: {
            readonly name: string;
            /**
             * Format: int32
             * @description The likest cloth of that print.
             */
            readonly no: number;
            /** @description The print's number. */
            readonly print: string;
        };
        /** @description What came of an ask. */
        readonly AnswerView: {
            readonly problems: readonly components["schemas"]["ProblemView"][] | null;
            readonly proposals: readonly components["schemas"]["ProposalView"][] | null;
            readonly tip: string | null;
            /** Format: int64 */
            readonly version: number;
            /** @description What it came to, as a sentence, where there is something to say. */
            readonly words: string | null;
        };
        /** @description What the page asks for. It is never a step: the program decides the steps. */
        readonly AskBody: {
            readonly ask: components["schemas"]["AskView"];
            readonly head: string;
            readonly tip?: string | null;
        };
        /** @description An ask. */
        readonly AskView: {
            readonly bend?: null | components["schemas"]["BendView"];
            readonly count?: number | null;
            /** @enum {string} */
            readonly kind: "next";
            readonly side?: string | null;
        } | {
            readonly bend?: null | components["schemas"]["BendView"];
            readonly count?: number | null;
            /** @enum {string} */
            readonly kind: "take";
            readonly proposal: number;
            readonly side?: string | null;
        } | {
            readonly bend?: null | components["schemas"]["BendView"];
            readonly count?: number | null;
            /** @enum {string} */
            readonly kind: "refuse";
            readonly proposal: number;
            readonly side?: string | null;
        } | {
            readonly bend?: null | components["schemas"]["BendView"];
            readonly count?: number | null;
            /** @enum {string} */
            readonly kind: "forget_refusals";
            readonly side?: string | null;
        } | {
            readonly cloth: string;
            readonly deep: string;
            /** @enum {string} */
            readonly kind: "lay";
            readonly wide: string;
        } | {
            /** @enum {string} */
            readonly kind: "sewn";
            /** Format: int32 */
            readonly upto?: number | null;
        } | {
            readonly anyway?: boolean | null;
            readonly cloth: string;
            readonly deep?: string | null;
            /** @enum {string} */
            readonly kind: "instead";
            /** Format: int32 */
            readonly patch?: number | null;
            readonly wide?: string | null;
        } | {
            /** @enum {string} */
            readonly kind: "unpick";
        } | {
            /** @enum {string} */
            readonly kind: "resew";
        } | {
            /** @enum {string} */
            readonly kind: "grow";
            readonly pieces: number;
            /** Format: int64 */
            readonly seed: number;
        } | {
            readonly count: number;
            /** @enum {string} */
            readonly kind: "what_ifs";
            readonly pieces: number;
            /** Format: int64 */
            readonly seed: number;
        };
        /** @description A quilt that was begun. */
        readonly BegunView: {
            readonly head: string;
            readonly quilt: string;
        };
        /** @description What proposals are bent to; what isn't named stays open. */
        readonly BendView: {
            /** @description A cloth that must be in it. */
            readonly cloth?: string | null;
            /** @description Finished depth, as a maker writes it. */
            readonly depth?: string | null;
            /** @description How many pieces it has. */
            readonly pieces?: number | null;
            /**
             * Format: double
             * @description How far the outer edge turns from the side, in degrees, counter-clockwise.
             */
            readonly tilt?: number | null;
        };
        /** @description A line of the shopping list. */
        readonly BuyView: {
            /** @description Whether it is reckoned from an area, so that it may take more. */
            readonly at_least: boolean;
            /** @description What. */
            readonly name: string;
            /** @description How much, in the shop's unit: `5 1/4 yd`. */
            readonly words: string;
        };
        /** @description The cards, measured on the paper. */
        readonly CardsBody: {
            /** @description The side of the black square as a maker writes it: "2", "50.5 mm". */
            readonly side: string;
        };
        /** @description What photographs are measured by. */
        readonly CardsView: {
            /**
             * Format: int64
             * @description Most bytes of a picture that are read.
             */
            readonly most_bytes: number;
            /**
             * Format: double
             * @description The side of the cards' black square, in inches.
             */
            readonly side_in: number;
        };
        /** @description What was sewn since the last step, asked of a found cloth as the piece on the table. */
        readonly CatchUpBody: {
            readonly head: string;
            /** @description Its place among those found. */
            readonly no: number;
            readonly quilt: string;
            readonly tip?: string | null;
        };
        /** @description What was sewn since, as the maker confirms it. */
        readonly CaughtUpBody: {
            readonly head: string;
            /**
             * @description For each new patch, in order, its cloth; none for one that stays as it was found, a region with its
             *     picture.
             */
            readonly made_of: readonly (string | null)[];
            /** @description Its place among those found. */
            readonly no: number;
            readonly quilt: string;
            readonly tip?: string | null;
        };
        /** @description What was sewn since the last step, as far as it is seen. */
        readonly CaughtUpView: {
            /** @description Where the outline came out otherwise, in sentences. */
            readonly differences: readonly string[];
            /** @description In an order in which they can have been sewn. */
            readonly patches: readonly components["schemas"]["NewPatchView"][];
            /** @description All in a sentence. */
            readonly words: string;
        };
        /** @description An outline, put right by the maker. */
        readonly ClothOutlineBody: {
            /** @description Its corners in order, in the cloth's inches. */
            readonly outline: readonly (readonly number[])[];
        };
        /** @description A cloth's outline over its picture, in its own inches, x to the right and y up. */
        readonly ClothOutlineView: {
            readonly cloth: string;
            /** Format: double */
            readonly height_in: number;
            readonly holes: readonly (readonly (readonly number[])[])[];
            /** @description What is left of it, where something was cut out since. */
            readonly left: readonly (readonly (readonly number[])[])[] | null;
            readonly name: string;
            /** Format: int32 */
            readonly no: number;
            /** @description The whole cloth as it came, counter-clockwise. */
            readonly outline: readonly (readonly number[])[];
            readonly picture: null | components["schemas"]["ClothPictureView"];
            /** Format: double */
            readonly width_in: number;
            /** @description All in a sentence, after it was put right. */
            readonly words: string | null;
        };
        /** @description Where a cloth's picture lies on it. */
        readonly ClothPictureView: {
            /** @description The file is gone from the workroom. */
            readonly missing: boolean;
            readonly url: string;
            /** @description Left, bottom, width and height, in inches. */
            readonly window_in: readonly number[];
        };
        /** @description A cloth in the stash. */
        readonly ClothView: {
            /** @description Its measures are a guess ("about 3 by 5"). */
            readonly about: boolean;
            /** Format: double */
            readonly area_in2: number;
            /**
             * Format: double
             * @description Share of what is there that plans lay claim to, 0 to 1.
             */
            readonly claimed: number;
            readonly colours: readonly components["schemas"]["ShadeView"][];
            /** Format: double */
            readonly height_in: number;
            readonly id: string;
            readonly kind: string;
            readonly name: string;
            /** Format: int32 */
            readonly no: number;
            readonly picture_url: string | null;
            readonly place: string | null;
            readonly print: string | null;
            /**
             * Format: double
             * @description Share of the cloth as it came that is still there, 0 to 1.
             */
            readonly remaining: number;
            /** @description Which ways its print may be turned. */
            readonly runs: string;
            readonly svg_url: string;
            /** Format: double */
            readonly width_in: number;
        };
        /** @description Whether there is enough for a stage. */
        readonly EnoughStageView: {
            /** Format: double */
            readonly hours: number;
            readonly is_enough: boolean;
            /** @description What it is short of, a sentence each. */
            readonly short: readonly string[];
            readonly stage: string;
        };
        /** @description Whether there is enough of everything. */
        readonly EnoughView: {
            /** @description What to buy. */
            readonly buy: readonly components["schemas"]["BuyView"][];
            /**
             * Format: double
             * @description Hours of work in all.
             */
            readonly hours: number;
            /** @description Whether there is enough of everything. */
            readonly is_enough: boolean;
            /** @description Stage by stage, in the order of work. */
            readonly stages: readonly components["schemas"]["EnoughStageView"][];
            /** @description The stages that aren't decided yet, and for which nothing is counted. */
            readonly undecided: readonly string[];
        };
        /** @description What came into the heap. */
        readonly EnteredView: {
            /** @description The cloths' ids, in order. */
            readonly cloths: readonly string[];
            /** @description The same as a sentence. */
            readonly words: string;
        };
        /** @description An entry of the sewing log. */
        readonly EntryView: {
            readonly kind: string;
            /** Format: int32 */
            readonly mark: number;
            /** @description Names of the patches that it brought to the table. */
            readonly patches: readonly string[];
            readonly photo: null | components["schemas"]["PhotoState"];
            readonly run: null | components["schemas"]["RunView"];
            readonly sentence: string;
            readonly sewn: boolean;
            readonly step: string;
        };
        /** @description The eye check of a step. */
        readonly EyeView: {
            readonly gates_passed: boolean;
            readonly rows: readonly components["schemas"]["RowView"][];
            /** Format: double */
            readonly total_cost: number;
        };
        /** @description A cloth that was found. */
        readonly FoundView: {
            /** @description Prints of the heap that look like it, likest first. */
            readonly alike: readonly components["schemas"]["AlikeView"][];
            /** Format: double */
            readonly area_in2: number;
            /** @description Places of other cloths of the picture that look like it, likest first. */
            readonly beside: readonly number[];
            readonly colours: readonly components["schemas"]["ShadeView"][];
            /** @description Whether the maker has put its points right. */
            readonly corrected: boolean;
            /** @description It runs out of the picture: there is more of it. */
            readonly cut_off: boolean;
            /** @description What should be looked at, in sentences. */
            readonly doubts: readonly string[];
            /** Format: double */
            readonly height_in: number;
            readonly holes: readonly (readonly (readonly number[])[])[];
            /** @description A name by its looks. */
            readonly name: string;
            /** @description Its place among those found, from 0. */
            readonly no: number;
            /** @description Its outline as it is now, counter-clockwise. */
            readonly outline: readonly (readonly number[])[];
            /** @description Its print in words: how large, how busy. */
            readonly print: string;
            /** @description Which ways up its print may be used, in words. */
            readonly runs: string;
            /** Format: double */
            readonly width_in: number;
        };
        /**
         * @description How good a row of the eye check is.
         * @enum {string}
         */
        readonly GradeView: "good" | "fair" | "poor";
        /** @description A cloth that a patch may be of. */
        readonly GuessView: {
            readonly cloth: string;
            readonly name: string;
            /** Format: int32 */
            readonly no: number;
        };
        /** @description A named tip of a quilt's log. */
        readonly HeadView: {
            readonly name: string;
            readonly sewn: string | null;
            readonly steps: number;
            readonly tip: string | null;
            /** Format: int64 */
            readonly version: number;
        };
        /** @description Growing that goes on while the page does something else. */
        readonly JobView: {
            readonly about: number;
            readonly answer: null | components["schemas"]["AnswerView"];
            /** @description Whether it has ended: then it has an answer, or else an error. */
            readonly ended: boolean;
            readonly error: null | components["schemas"]["Said"];
            readonly head: string;
            /** Format: int64 */
            readonly job: number;
            /** @description Pieces on the table so far, and about how many there will be; of what-ifs, in all of them. */
            readonly pieces: number;
            /** @description Of which quilt and head it grows. */
            readonly quilt: string;
            /**
             * Format: int32
             * @description The status that goes with the error.
             */
            readonly status: number | null;
            /** @description Whether it was asked to stop. */
            readonly stopping: boolean;
        };
        /** @description The jobs that are known, oldest first. */
        readonly JobsView: {
            readonly jobs: readonly components["schemas"]["JobView"][];
        };
        /** @description Which of the found cloths come into the heap. */
        readonly KeepBody: {
            readonly kept: readonly components["schemas"]["KeptBody"][];
        };
        /** @description A found cloth that comes into the heap. */
        readonly KeptBody: {
            readonly name: string;
            /** @description Its place among those found. */
            readonly no: number;
            readonly same?: null | components["schemas"]["SameView"];
        };
        /** @description The log of one head, from the first step to its tip. */
        readonly LogView: {
            readonly entries: readonly components["schemas"]["EntryView"][];
            readonly sewn: string | null;
            readonly tip: string | null;
            /** Format: int64 */
            readonly version: number;
        };
        /** @description Which stages to look at, from the tip of a head. */
        readonly LookBody: {
            readonly head: string;
            /**
             * @description Each an object as a stage of a plan file: `{"border": {"cloth": "ripple", "sewn_in": ["2 1/2"]}}`.
             *     Lengths may be numbers of inches or words as a maker writes them; threads may be colour words.
             */
            readonly stages: readonly unknown[];
            /** @description The drawing of a figure that is not `heron`, as SVG text. */
            readonly svg?: string | null;
            readonly tip?: string | null;
        };
        /** @description Stages looked at from one tip. */
        readonly LooksView: {
            /** @description Whether all have been worked out: then they are here, or else an error. */
            readonly ended: boolean;
            readonly error: null | components["schemas"]["Said"];
            /**
             * Format: int64
             * @description By which they are asked for again.
             */
            readonly look: number;
            readonly seen: readonly components["schemas"]["SeenView"][] | null;
        };
        /**
         * @description What the points of a mark make.
         * @enum {string}
         */
        readonly MarkKind: "point" | "line" | "area";
        /** @description A place on the piece, y up. */
        readonly MarkView: {
            readonly kind: components["schemas"]["MarkKind"];
            readonly points: readonly (readonly number[])[];
        };
        /** @description A number of the wish, with its unit and its limits. */
        readonly MeasureView: {
            readonly label: string;
            /** Format: double */
            readonly least: number;
            /** Format: double */
            readonly most: number;
            readonly name: string;
            readonly unit: components["schemas"]["UnitView"];
            /** Format: double */
            readonly value: number;
            readonly words: string;
        };
        /** @description A patch that is in no step yet. */
        readonly NewPatchView: {
            /** @description What should be looked at twice, in sentences. */
            readonly doubts: readonly string[];
            /** @description The cloths it may be of, likest first. */
            readonly guesses: readonly components["schemas"]["GuessView"][];
            /** @description The cloth it is taken to be of when nothing else is said; none where no cloth looks like it. */
            readonly likest: string | null;
            /** @description What shows of it on the table. */
            readonly outline: readonly (readonly number[])[];
            /** @description Where it was sewn and how large it is, in words. */
            readonly words: string;
        };
        /** @description Another outline. Lengths are finished, as a maker writes them. */
        readonly OutlineAsk: {
            readonly height?: string | null;
            readonly kind: components["schemas"]["OutlineKind"];
            /** Format: int32 */
            readonly sides?: number | null;
            readonly width?: string | null;
        };
        /** @description The outline of a found cloth, put right by the maker. */
        readonly OutlineBody: {
            /** @description Its corners in order, in inches; none to have it again as it was found. */
            readonly outline?: readonly (readonly number[])[] | null;
        };
        /**
         * @description Kinds of outline. A polygon is given by its corners, on the command line.
         * @enum {string}
         */
        readonly OutlineKind: "round" | "rectangle" | "polygon" | "free";
        /** @description The outline to grow towards. */
        readonly OutlineView: {
            /** Format: double */
            readonly height_in: number | null;
            readonly kind: components["schemas"]["OutlineKind"];
            /**
             * Format: int32
             * @description Of a round outline.
             */
            readonly sides: number | null;
            /**
             * Format: double
             * @description Of a rectangle, finished.
             */
            readonly width_in: number | null;
        };
        /** @description A paper that can be asked for. */
        readonly PaperView: {
            /** @description What it is for. */
            readonly about: string;
            /** @description Its name, as in its address. */
            readonly name: string;
            readonly title: string;
        };
        /** @description A patch. */
        readonly PatchView: {
            readonly cloth: string;
            readonly cloth_name: string;
            /** @description The box of what was cut, width and height. */
            readonly cut_in: readonly number[];
            /** Format: double */
            readonly finished_area_in2: number;
            /** @description The seam that holds it. */
            readonly held_by: string | null;
            readonly name: string;
        };
        /** @description What the eye sees in a picture of a piece. */
        readonly PhotoEyeView: {
            /** @description Mean colours of rings of equal width, from the middle outward. */
            readonly rings: readonly components["schemas"]["ShadeView"][];
            /** @description Round, balance and drift. */
            readonly rows: readonly components["schemas"]["RowView"][];
            /** @description How large it is, and what can't be told. */
            readonly words: string;
        };
        /**
         * @description A photograph that belongs to the log.
         * @enum {string}
         */
        readonly PhotoState: "kept" | "missing";
        /** @description A photograph that was given. */
        readonly PhotoView: {
            /** @description What is being done with it while it is read, in words. */
            readonly doing: string | null;
            /** @description Whether it has been read: then what was found is here, or else an error. */
            readonly ended: boolean;
            readonly error: null | components["schemas"]["Said"];
            /** @description The file's name. */
            readonly name: string;
            /**
             * Format: int64
             * @description By which it is asked for again.
             */
            readonly photo: number;
            readonly seen: null | components["schemas"]["TabletopView"];
        };
        /** @description A found cloth as the piece on the table, held against a plan. */
        readonly PieceBody: {
            readonly head: string;
            /** @description Its place among those found. */
            readonly no: number;
            readonly quilt: string;
            readonly tip?: string | null;
            /**
             * Format: double
             * @description By how many degrees, counter-clockwise, the piece has to be turned to lie as it is drawn.
             */
            readonly turned_deg?: number | null;
        };
        /** @description The piece as it was seen, against its plan. */
        readonly PieceSeenView: {
            /** @description Every difference, in sentences. */
            readonly differences: readonly string[];
            /**
             * @description The motion that lays the flattened picture on the drawing of the front, as the six numbers of an
             *     SVG matrix, an inch a unit.
             */
            readonly laid: readonly number[];
            /**
             * Format: double
             * @description Another turn in degrees by which it would lie nearly as well.
             */
            readonly rival_deg: number | null;
            readonly sides: readonly components["schemas"]["SideSeenView"][];
            /** @description What isn't square or flat, in sentences; empty when all agrees. */
            readonly square: readonly string[];
            /** @description All in a sentence. */
            readonly words: string;
        };
        /** @description Why something can't be sewn, and what would help. */
        readonly ProblemView: {
            readonly message: string;
            readonly place: string | null;
            readonly remedies: readonly string[];
            readonly rule: string;
        };
        /** @description One patch of a proposal, and how it is cut. */
        readonly ProposalPatchView: {
            readonly cloth: string;
            readonly cloth_name: string;
            /** @description The cloth with the letters of its edges, their lengths, and the ruler's lines. */
            readonly cut_svg_url: string;
            /** @description One sentence a line of the ruler; its number, letters and lengths are those of the drawing. */
            readonly cuts: readonly string[];
            /**
             * Format: int32
             * @description The number in the heap of the cloth that it is cut from.
             */
            readonly no: number | null;
            /** @description Its finished size, in words. */
            readonly size: string;
        };
        /** @description A next piece that is proposed. */
        readonly ProposalView: {
            /** @description The side it was proposed for: the same, unless a trim goes first. */
            readonly asked: string;
            readonly cloth: string;
            readonly cloth_name: string;
            readonly cut_words: string;
            readonly lay_words: string;
            readonly no: number;
            readonly patches: readonly components["schemas"]["ProposalPatchView"][];
            readonly preview_svg_url: string;
            /** Format: double */
            readonly score: number;
            readonly side: string;
            readonly terms: readonly components["schemas"]["TermView"][];
        };
        /** @description A quilt to begin. */
        readonly QuiltAsk: {
            /** @description What it is called. */
            readonly name: string;
        };
        /** @description A quilt and its heads. */
        readonly QuiltView: {
            readonly heads: readonly components["schemas"]["HeadView"][];
            readonly name: string;
        };
        /** @description A refusal. */
        readonly Refused: {
            readonly error: components["schemas"]["Said"];
        };
        /** @description The workroom: every quilt in it. */
        readonly RoomView: {
            readonly name: string;
            readonly quilts: readonly components["schemas"]["QuiltView"][];
            /** @description What undoing would take back, if anything. */
            readonly undo: string | null;
        };
        /** @description A row of the eye check. */
        readonly RowView: {
            readonly grade: components["schemas"]["GradeView"];
            readonly key: string;
            readonly marks: readonly components["schemas"]["MarkView"][];
            readonly number: string | null;
            readonly quality: string;
            readonly words: string;
        };
        /** @description The run an entry belongs to. */
        readonly RunView: {
            /** Format: int32 */
            readonly first: number;
            readonly kind: string;
            /** @description What it is called in the trade. */
            readonly name: string;
        };
        /** @description Why something was refused. */
        readonly Said: {
            /** @description What to do. */
            readonly hint: string | null;
            /** @description What is wrong, and where. */
            readonly message: string;
        };
        /** @description What is of the same print. */
        readonly SameView: {
            /** @enum {string} */
            readonly kind: "heap";
            readonly print: string;
        } | {
            /** @enum {string} */
            readonly kind: "beside";
            readonly no: number;
        };
        /** @description A scrap as its maker tells it. */
        readonly ScrapAsk: {
            /** @enum {string} */
            readonly kind: "words";
            readonly words: string;
        } | {
            readonly height: string;
            /** @enum {string} */
            readonly kind: "rectangle";
            readonly name: string;
            readonly width: string;
        };
        /** @description A seam. */
        readonly SeamView: {
            /**
             * Format: double
             * @description As it was sewn, raw edge to raw edge.
             */
            readonly length_in: number;
            readonly name: string;
            /** Format: int32 */
            readonly order: number;
            readonly press: string;
        };
        /** @description One stage as it would be. */
        readonly SeenView: {
            readonly error: null | components["schemas"]["Said"];
            /** @description Its name in a plan: `border`. */
            readonly stage: string;
            readonly told: null | components["schemas"]["ToldView"];
        };
        /** @description One of the main colours of a cloth. */
        readonly ShadeView: {
            readonly hex: string;
            /** Format: double */
            readonly share: number;
        };
        /** @description A side as it was seen. */
        readonly SideSeenView: {
            /** @description Its name in the plan; none for an open seam. */
            readonly name: string | null;
            /** Format: double */
            readonly planned_in: number;
            /**
             * Format: double
             * @description None where too little of it was seen.
             */
            readonly seen_in: number | null;
        };
        /** @description A free side. */
        readonly SideView: {
            /**
             * Format: double
             * @description The raw length.
             */
            readonly length_in: number;
            readonly name: string;
            /** @description Whether it can be sewn before the next pressing. */
            readonly sewable: boolean;
        };
        /**
         * @description The sense in which pieces are added round the centre.
         * @enum {string}
         */
        readonly SpiralView: "none" | "clockwise" | "anticlockwise";
        /** @description The stash, as one quilt sees it. */
        readonly StashView: {
            readonly cloths: readonly components["schemas"]["ClothView"][];
        };
        /** @description A colour on the way outward: its share of the way, 0 to 1, and as #rrggbb. */
        readonly StopView: {
            /** Format: double */
            readonly at: number;
            readonly hex: string;
        };
        /** @description What lies on the table after a step. */
        readonly TableView: {
            readonly tops: readonly components["schemas"]["TopView"][];
        };
        /** @description What a photograph shows of the table. */
        readonly TabletopView: {
            /** @description Corners of the cards that it was measured by. */
            readonly cards: readonly (readonly (readonly number[])[])[];
            /** @description Numbers of the cloths that were entered from the same picture before. */
            readonly entered_before: readonly number[];
            /** @description The picture as from straight above. */
            readonly flat_url: string;
            readonly found: readonly components["schemas"]["FoundView"][];
            /** @description Where on the table it lies: left, bottom, width and height, in inches. */
            readonly window_in: readonly number[];
            /** @description How it was measured and how far it can be trusted, in sentences. */
            readonly words: readonly string[];
        };
        /** @description Which stage to take. */
        readonly TakeBody: {
            readonly head: string;
            /** @description As one of a look. */
            readonly stage: unknown;
            /** @description The drawing of a figure that is not `heron`, as SVG text. */
            readonly svg?: string | null;
            readonly tip?: string | null;
        };
        /** @description One term of a score: what it adds. */
        readonly TermView: {
            readonly name: string;
            /** Format: double */
            readonly value: number;
            readonly words: string;
        };
        /** @description The point with the most layers. */
        readonly ThickView: {
            /** Format: int32 */
            readonly layers: number;
            /** Format: double */
            readonly x_in: number;
            /** Format: double */
            readonly y_in: number;
        };
        /** @description What a stage says. */
        readonly ToldView: {
            readonly back_svg_url: string;
            /** @description What to look out for. */
            readonly cautions: readonly string[];
            /** @description The piece as it would be. */
            readonly front_svg_url: string;
            /** @description What to cut or to do, one after the other. */
            readonly list: readonly string[];
            /** @description What it is called in the trade. */
            readonly name: string;
            /** @description All its numbers, as `ragbag finish --look --json` has them. */
            readonly report: unknown;
            /** @description Everything in a sentence or two. */
            readonly sentence: string;
            /** @description How many steps of the log it takes; none where the heap hasn't the cloth. */
            readonly steps: number;
        };
        /** @description A top on the table. */
        readonly TopView: {
            /** Format: double */
            readonly height_in: number;
            /** Format: int32 */
            readonly mark: number;
            readonly patches: readonly components["schemas"]["PatchView"][];
            readonly seams: readonly components["schemas"]["SeamView"][];
            readonly sides: readonly components["schemas"]["SideView"][];
            readonly thickest: null | components["schemas"]["ThickView"];
            /**
             * Format: double
             * @description Raw width and height of its box.
             */
            readonly width_in: number;
        };
        /** @description What was taken back. */
        readonly UndoneView: {
            readonly words: string;
        };
        /**
         * @description What a measure is counted in.
         * @enum {string}
         */
        readonly UnitView: "inches" | "percent" | "degrees" | "difference" | "weight";
        /** @description What of a wish is to change; what isn't named stays. */
        readonly WishChange: {
            /** @description Colours from the centre outward, in words or as #rrggbb; none for no drift. */
            readonly drift?: readonly string[] | null;
            /** @description Measures by name, each as a maker writes it: "2 1/4", "57 mm", "6 %". */
            readonly measures?: {
                readonly [key: string]: string;
            } | null;
            readonly outline?: null | components["schemas"]["OutlineAsk"];
            readonly spare?: readonly string[] | null;
            readonly spiral?: null | components["schemas"]["SpiralView"];
            readonly upright?: boolean | null;
            readonly use_up?: readonly string[] | null;
        };
        /** @description The wish of a quilt. */
        readonly WishView: {
            /** @description Colours from the centre outward; none when there is no drift. */
            readonly drift: readonly components["schemas"]["StopView"][];
            readonly measures: readonly components["schemas"]["MeasureView"][];
            readonly outline: components["schemas"]["OutlineView"];
            /** @description Cloths not to be used. */
            readonly spare: readonly string[];
            readonly spiral: components["schemas"]["SpiralView"];
            /** @description Whether prints with a top must stand upright on the wall. */
            readonly upright: boolean;
            /** @description Cloths to be used where they can be. */
            readonly use_up: readonly string[];
        };
        /** @description The maker's own words for the pattern of a quilt. */
        readonly WordsView: {
            /** @description Some words for the cover. */
            readonly cover: string;
            /** @description Who made it; nobody named when empty. */
            readonly maker: string;
            /** @description Under the title of a paper, by the paper's name. */
            readonly papers: {
                readonly [key: string]: string;
            };
            /** @description The title; the quilt's name when empty. */
            readonly title: string;
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    readonly back: {
        readonly parameters: {
            readonly query?: {
                readonly labels?: boolean;
                readonly measures?: boolean;
                readonly sewn?: string;
            };
            readonly header?: never;
            readonly path: {
                readonly step: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly eye: {
        readonly parameters: {
            readonly query: {
                readonly quilt: string;
            };
            readonly header?: never;
            readonly path: {
                readonly step: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["EyeView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly front: {
        readonly parameters: {
            readonly query?: {
                readonly labels?: boolean;
                readonly measures?: boolean;
                readonly sewn?: string;
                /** @description the photograph that the piece was measured by, in the place of its cloth */
                readonly photo?: boolean;
            };
            readonly header?: never;
            readonly path: {
                readonly step: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly preview: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly step: string;
                readonly no: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly cut: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly step: string;
                readonly no: string;
                readonly patch: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly table: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly step: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["TableView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly cards: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CardsView"];
                };
            };
        };
    };
    readonly measure_cards: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["CardsBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CardsView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly cards_to_print: {
        readonly parameters: {
            readonly query?: {
                /** @description `a4`, `letter`, another name, or width and height, as in `8-1/2x14` */
                readonly paper?: string;
            };
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/pdf": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly jobs: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobsView"];
                };
            };
        };
    };
    readonly job: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly job: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly stop_job: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly job: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly see: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly look: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["LooksView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly look_back: {
        readonly parameters: {
            readonly query?: {
                readonly labels?: boolean;
                readonly measures?: boolean;
            };
            readonly header?: never;
            readonly path: {
                readonly look: number;
                readonly place: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly look_front: {
        readonly parameters: {
            readonly query?: {
                readonly labels?: boolean;
                readonly measures?: boolean;
            };
            readonly header?: never;
            readonly path: {
                readonly look: number;
                readonly place: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly papers: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": readonly components["schemas"]["PaperView"][];
                };
            };
        };
    };
    readonly give_photo: {
        readonly parameters: {
            readonly query?: {
                readonly name?: string;
                /** @description `scraps` or `piece` */
                readonly of?: string;
            };
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/octet-stream": readonly number[];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoView"];
                };
            };
            readonly 202: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 429: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly photo: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly forget_photo: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 204: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content?: never;
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly as_found: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["PieceBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["AnswerView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly caught_up: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["CaughtUpBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["AnswerView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly photo_eye: {
        readonly parameters: {
            readonly query?: {
                /** @description its place among those found; 0 when not said */
                readonly no?: number;
                /** @description the quilt whose wish counts */
                readonly quilt?: string;
                /** @description what the next seam takes of the raw edge; the wish's seam allowance when not said */
                readonly edge?: string;
            };
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PhotoEyeView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly correct_found: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
                readonly no: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["OutlineBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["FoundView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly photo_from_above: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/png": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly keep_found: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["KeepBody"];
            };
        };
        readonly responses: {
            readonly 201: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["EnteredView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly take_measured: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["PieceBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["AnswerView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly compare_piece: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["PieceBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["PieceSeenView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly sewn_since: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly photo: number;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["CatchUpBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["CaughtUpView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly begin_quilt: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["QuiltAsk"];
            };
        };
        readonly responses: {
            readonly 201: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["BegunView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly ask: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["AskBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["AnswerView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly enough: {
        readonly parameters: {
            readonly query?: {
                readonly head?: string;
                readonly per_hour?: number;
            };
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["EnoughView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly begin_job: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["AskBody"];
            };
        };
        readonly responses: {
            readonly 202: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["JobView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 429: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly log: {
        readonly parameters: {
            readonly query?: {
                readonly head?: string;
            };
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["LogView"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly look: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["LookBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["LooksView"];
                };
            };
            readonly 202: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["LooksView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 429: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly paper: {
        readonly parameters: {
            readonly query?: {
                /** @description Which head; `main` when not said. */
                readonly head?: string;
                /** @description `a4`, `letter`, another name, or width and height, as in `8-1/2x14`. */
                readonly paper?: string;
                /** @description Cloth as a pale tint instead of pictures. */
                readonly ink_saving?: boolean;
                /** @description Lengths in centimetres. */
                readonly cm?: boolean;
                /** @description Cuts told for the blade in the left hand. */
                readonly left_handed?: boolean;
                /** @description For those who cut by template. */
                readonly by_template?: boolean;
                /** @description Several step cards a page. */
                readonly small_cards?: boolean;
                /** @description True-size sheets mirrored. */
                readonly mirrored?: boolean;
                /** @description True-size sheets even of what is better done without. */
                readonly anyway?: boolean;
            };
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
                /** @description a paper's name, or `booklet` */
                readonly paper: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/pdf": unknown;
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly take_stage: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["TakeBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["AnswerView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 409: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 413: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly wish: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["WishView"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly change_wish: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["WishChange"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["WishView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly own_words: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["WordsView"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly keep_words: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly quilt: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["WordsView"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["WordsView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly stash: {
        readonly parameters: {
            readonly query?: {
                readonly quilt?: string;
            };
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["StashView"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly enter: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["ScrapAsk"];
            };
        };
        readonly responses: {
            readonly 201: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["EnteredView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly cloth: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly cloth: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/svg+xml": unknown;
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly cloth_outline: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly cloth: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["ClothOutlineView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly correct_cloth: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly cloth: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody: {
            readonly content: {
                readonly "application/json": components["schemas"]["ClothOutlineBody"];
            };
        };
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["ClothOutlineView"];
                };
            };
            readonly 400: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 415: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly undo: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["UndoneView"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly workroom: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path?: never;
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["RoomView"];
                };
            };
            readonly 422: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
    readonly picture: {
        readonly parameters: {
            readonly query?: never;
            readonly header?: never;
            readonly path: {
                readonly hash: string;
            };
            readonly cookie?: never;
        };
        readonly requestBody?: never;
        readonly responses: {
            readonly 200: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "image/png": unknown;
                };
            };
            readonly 404: {
                headers: {
                    readonly [name: string]: unknown;
                };
                content: {
                    readonly "application/json": components["schemas"]["Refused"];
                };
            };
        };
    };
}
