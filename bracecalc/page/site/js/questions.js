// What is asked, in the order of the work, and how to measure it. The keys are those of the job
// file; everything that is worked out from the answers comes from the engine.

import { START } from "./start.js";

const yesNo = [
  ["true", "Yes"],
  ["false", "No"],
];
const named = (names) => names.map((name) => [name, name]);

const length = (key, label, hint, more = {}) => ({ kind: "length", key, label, hint, ...more });
const weight = (key, label, hint) => ({ kind: "weight", key, label, hint, optional: true });
const choice = (key, label, hint, options, more = {}) => ({
  kind: "choice",
  key,
  label,
  hint,
  options,
  ...more,
});

const UNITS = [
  ["inch", "Inches"],
  ["mm", "Millimeters"],
];
const BARE = "~bare"; // the engine's word for a wall without a finish

export const CORNERS = ["front_left", "front_right", "rear_left", "rear_right"];
const CORNER_WORDS = {
  front_left: "front left",
  front_right: "front right",
  rear_left: "rear left",
  rear_right: "rear right",
};

/** Return a corner as people say it. */
export const cornerWords = (corner) => CORNER_WORDS[corner];

const FLOOR_WAYS = [
  ["up", "Up from the datum: a bigger number is a higher floor"],
  ["down", "Down from the laser line: a bigger number is a lower floor"],
];

/** What was found is asked by another name than what was planned. */
const asFound = (questions) =>
  questions.map((one) => ({ ...one, label: `${one.label}, as found`, found: true, optional: true }));

function floorQuestions(way, found) {
  const table = found ? "as_found.floor" : "floor";
  const prefix = way === "down" ? `${table}.down_from_line` : table;
  const how = way === "down" ? "From the laser line down to the floor" : "Floor above the datum";
  const asked = CORNERS.map((corner) =>
    length(`${prefix}.${corner}`, `Floor, ${CORNER_WORDS[corner]} leg`, `${how}, where this leg lands.`, {
      mark: `floor.${corner}`,
      signed: way !== "down",
      optional: true,
    }),
  );
  if (way === "down") {
    asked.push(
      length(`${found ? "as_found" : prefix}.line`, "The laser line itself", "Its height above the datum.", {
        optional: true,
      }),
    );
  }
  return asked;
}

function niche(prefix) {
  const many = { many: "Another place" };
  return [
    length(`${prefix}.width`, "Niche width", "Side to side, finished face to finished face.", {
      mark: "width",
      ...many,
    }),
    length(
      `${prefix}.depth`,
      "Niche depth",
      "From the front line of the appliance back to the finished rear wall, at the height of the boards.",
      { mark: "depth", ...many },
    ),
    length(`${prefix}.soffit`, "Soffit", "Its underside above the datum. Leave empty where there is none.", {
      mark: "soffit",
      optional: true,
      ...many,
    }),
  ];
}

function wall() {
  const { materials, species } = START.choices;
  return [
    choice("wall.layers.1.material", "Wall finish", "What you would drill through first.", [
      [BARE, "None: bare studs"],
      ...named(materials),
    ]),
    length("wall.layers.1.thickness", "Finish thickness", "Measure at an outlet or a cut edge.", {
      mark: "layer",
    }),
    choice("wall.layers.2.material", "Second layer", "Only where there is one behind it.", named(materials), {
      optional: true,
    }),
    length("wall.layers.2.thickness", "Second layer thickness", "", { mark: "layer", optional: true }),
    choice("wall.stud.material", "Studs", "What stands behind the finish.", [
      ["wood", "Wood"],
      ["steel", "Steel"],
      ["masonry", "Masonry or concrete"],
      ["unknown", "Not known"],
    ]),
    choice("wall.stud.species", "Stud wood", "SPF where nothing else is stamped on it.", named(species), {
      optional: true,
    }),
    length("wall.stud_spots", "Stud centers", "Each from the left side of the niche.", {
      mark: "studs",
      list: true,
    }),
  ];
}

function unit() {
  return [
    length("unit.height", "Appliance height", "Its top at the rear, where it bears, on its rollers, legs in.", {
      mark: "unit_height",
    }),
    length("unit.height_overall", "Highest point", "Of the whole appliance, where something stands higher.", {
      mark: "unit_height",
      optional: true,
    }),
    length("unit.width", "Appliance width", "", { mark: "unit_width" }),
    length("unit.depth", "Appliance depth", "From its front line to the rear of its top.", {
      mark: "unit_depth",
    }),
    length("unit.leg_travel", "Leg travel", "The most that a leg can be screwed out.", { mark: "legs" }),
    length("unit.leg_pitch", "Leg thread pitch", "How far one full turn moves a leg.", {
      mark: "legs",
      optional: true,
    }),
    weight("unit.weight", "Weight", "Empty, doors shut, from its spec sheet."),
    length("unit.cg_height", "Center of gravity, height", "From its spec sheet.", { optional: true }),
    length(
      "unit.cg_behind_front_legs",
      "Center of gravity, behind the front legs",
      "From its spec sheet.",
      { optional: true },
    ),
    length("unit.front_legs_behind_front", "Front legs", "How far behind the front line.", {
      optional: true,
    }),
  ];
}

/** The numbers of the doors that are asked for: those of the file and those added here. */
export function doorNumbers(job) {
  const count = Math.max(job.known?.doors ?? 1, Number(job.entries["~doors"] ?? 1));
  const all = Array.from({ length: count }, (_, n) => n + 1);
  return all.filter((n) => job.entries[`~without.unit.doors.${n}`] !== "true");
}

function doors(numbers) {
  const asked = [];
  for (const n of numbers) {
    const of = `unit.doors.${n}`;
    const name = `Door or drawer ${n}`;
    asked.push(
      weight(`${of}.own_weight`, `${name}: own weight`, ""),
      weight(`${of}.contents`, `${name}: contents`, "The most that is kept in it."),
      length(`${of}.reach`, `${name}: reach`, "Middle of its weight in front of the front legs, open.", {
        signed: true,
        optional: true,
      }),
      length(`${of}.closed_reach`, `${name}: closed`, "The same, shut.", { signed: true, optional: true }),
      length(`${of}.edge`, `${name}: outer edge`, "In front of the front legs, open.", {
        signed: true,
        optional: true,
      }),
    );
  }
  return asked;
}

function boards() {
  return [
    choice("boards.size", "Board size", "One length of lumber, flat to the wall.", named(START.choices.boards)),
    choice("boards.species", "Board wood", "", named(START.choices.species), { optional: true }),
  ];
}

function built() {
  return [
    length("as_found.board.left", "Boards, left end", "Underside above the datum, as built.", {
      mark: "board",
      optional: true,
      many: "Read again",
    }),
    length("as_found.board.right", "Boards, right end", "Underside above the datum, as built.", {
      mark: "board",
      optional: true,
      many: "Read again",
    }),
    length("as_found.projection", "Boards out from the wall", "Finished wall to the outermost face.", {
      mark: "projection",
      optional: true,
      many: "Other end",
    }),
    ...CORNERS.map((corner) =>
      length(`as_found.legs.${corner}`, `Leg now, ${CORNER_WORDS[corner]}`, "How far it is out now.", {
        mark: "legs",
        optional: true,
      }),
    ),
  ];
}

/** How the floor's heights are read: "up" or "down". */
export function floorWay(job, found) {
  const table = found ? "as_found.floor" : "floor";
  const chosen = job.entries[`~${table}`];
  if (chosen) return chosen;
  return !found && job.known?.floor_down ? "down" : "up";
}

function planned(job) {
  return [
    {
      name: "The niche",
      questions: [
        { kind: "text", key: "title", label: "Name of the job", hint: "Building, flat, room." },
        // bare numbers of a file are in its own units, so those of an opened job stay
        ...(job.text ? [] : [choice("units", "Units", "What lengths are shown in.", UNITS, { optional: true })]),
        ...niche("niche"),
        choice("niche.soffit_solid", "Is the soffit solid?", "Framed, not only board on nothing.", yesNo, {
          optional: true,
        }),
      ],
    },
    {
      name: "The floor",
      questions: [
        choice("~floor", "Floor heights", "How you read them.", FLOOR_WAYS),
        ...floorQuestions(floorWay(job, false), false),
      ],
    },
    { name: "The wall", questions: wall() },
    { name: "The appliance", questions: unit() },
    { name: "Doors and drawers", questions: doors(doorNumbers(job)), doors: true },
    { name: "The boards", questions: boards() },
  ];
}

function found(job) {
  return [
    { name: "Found on site: niche", questions: asFound(niche("as_found")) },
    {
      name: "Found on site: floor",
      questions: asFound([
        choice("~as_found.floor", "Floor heights", "How you read them.", FLOOR_WAYS),
        ...floorQuestions(floorWay(job, true), true),
        length("as_found.path_high", "Highest floor on the way in", "A threshold, the edge of the flooring.", {
          mark: "floor.front_left",
        }),
      ]),
    },
    {
      name: "Found on site: wall",
      questions: asFound([
        length("as_found.studs", "Stud centers", "Each from the left side of the niche.", {
          mark: "studs",
          list: true,
        }),
        {
          kind: "text",
          key: "as_found.layers",
          label: "Wall layers",
          hint: "From the room to the studs, as: gypsum board 1/2, plywood 3/4",
        },
        {
          kind: "text",
          key: "as_found.screws",
          label: "Screws on hand",
          hint: "Size x length, as: 10 x 3 1/2, 12 x 5",
        },
      ]),
    },
    { name: "Found on site: as built", questions: asFound(built()) },
  ];
}

const SHAPES = { flag: yesNo };

/** What the engine can be told beyond that, made from its own list of keys. */
function rest() {
  return START.more.map(({ name, questions }) => ({
    name,
    more: true,
    questions: questions.map((one) => ({
      ...one,
      optional: true,
      options: one.options ? named(one.options) : SHAPES[one.shape],
    })),
  }));
}

/** Return the sections of a job: what was found first where it was planned before. */
export function sectionsOf(job) {
  const plan = planned(job);
  for (const section of plan) section.plan = true;
  return job.text ? [...found(job), ...plan, ...rest()] : [...plan, ...found(job), ...rest()];
}

/** Return the questions that are asked one after the other; the rest is entered where it is wanted. */
export const stepsOf = (job) =>
  sectionsOf(job)
    .filter((section) => !section.more)
    .flatMap((section) => section.questions);

// Keys that say in another way what a step asks for.
const OTHER_NAME = {
  "unit.leg_travel_front": "unit.leg_travel",
  "unit.leg_travel_rear": "unit.leg_travel",
  "wall.layers": "wall.layers.1.material",
  "wall.stud_layout": "wall.stud_spots",
  "unit.doors": "unit.doors.1.own_weight",
};

/** Return the question that a key of the engine's answer is about, or undefined. */
export function questionOf(job, key) {
  const bare = key.replace(/\[\d+\]$/, "");
  const questions = sectionsOf(job).flatMap((section) => section.questions);
  return (
    questions.find((one) => one.key === bare) ??
    questions.find((one) => one.key.startsWith(`${bare}.`)) ??
    questions.find((one) => one.key === OTHER_NAME[bare])
  );
}

const SAID = {
  "as_found.width": "niche.width",
  "as_found.depth": "niche.depth",
  "as_found.soffit": "niche.soffit",
  "as_found.studs": "wall.stud_spots",
  "as_found.path_high": "floor.path_high",
};

/** Return the key under which the job file says what a found value is measured against. */
export function saidUnder(key) {
  return SAID[key] ?? (key.startsWith("as_found.floor.") ? key.replace("as_found.", "") : key);
}
