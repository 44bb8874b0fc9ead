"""What is said in the English of the United States. A name in braces is a value or a term.

Values come formatted: a length with its unit, rounded the safe way. Terms are below.
"""

from __future__ import annotations

TERMS = {
    "appliance": "appliance",
    "blocking": "solid blocking",
    "centers": "centers",
    "center": "center",
    "drywall": "drywall",
    "level": "level",
    "spacer": "spacer board",
    "spacers": "spacer boards",
    "spec_sheet": "spec sheet",
    "truck": "truck",
    "wrench": "socket wrench",
}

SENTENCES = {
    # the four steps
    "step.mark": "Mark",
    "step.cut": "Cut",
    "step.fasten": "Fasten",
    "step.set": "Set",
    # the first screen
    "screen.open": "Not settled yet: {points}.",
    "screen.more-failing": "{count} findings fail; --full shows them all.",
    "screen.restraint": "Restraint: {why}.",
    "screen.materials": "Materials",
    "screen.finding": "Watch out",
    "screen.more": "Safety",
    "screen.end": "Two or more people. Local codes, the {appliance}'s own instructions and "
    "licensed trades come first; this is a calculation, not an engineer's approval. All of it: "
    "--full; the working: --explain; alternatives: --alternatives.",
    # the whole plan
    "open.title": "Not settled yet:",
    "to-spare.columns": "to spare | worst case",
    "heights.title": "Heights",
    "heights.columns": "above the datum | height | set by",
    "heights.highest": "highest that the legs reach",
    "heights.lowest": "lowest that works",
    "heights.target": "TARGET, underside of the restraint",
    "heights.to-spare": "To spare to the nearer limit {nominal}; worst case {worst}, root sum of "
    "squares {rss}: {verdict}.",
    "legs.title": "Legs at contact",
    "legs.columns": "leg | out | travel",
    "legs.columns-turns": "leg | out | turns | travel",
    "screws.title": "Screws",
    "screws.columns-boards": "board | screw | per stud | all | in stud | needs | to far side",
    "screws.columns-anchors": "board | screw | per place | all | in wall | needs | to far side",
    "screws.columns-spacers": "{spacer} | screw | per place | all | in framing | needs | to far "
    "side",
    "screws.mark": "Mark each screw:",
    "screws.places": "board | from the left side | above the board's underside",
    "screws.drill": "Drill",
    "strength.title": "Strength",
    "strength.columns": "load case | must hold | holds | used | {factor} | limited by",
    "strength.moments": "load case | about the front legs | moment",
    "strength.screw": "One screw of the outermost board, {method}, {state}: lateral {lateral} "
    "(mode {mode}, gap {gap}), withdrawal {withdrawal}, head pull-through {pull_through}.",
    "strength.characteristic": "characteristic, before k_mod and gamma_M",
    "strength.published": "not raised for short loads",
    "strength.reference": "before load duration",
    "strength.not-checked": "Tip-over is NOT checked. Missing: {missing}.",
    "strength.not-checked-full": "Tip-over is NOT fully checked. Missing: {missing}.",
    "strength.governs": "The {case} case governs.",
    "strength.not-worked-out": "not worked out",
    "strength.no-screws": "no screws",
    "strength.no-restraint": "no restraint",
    "strength.framing": "the soffit's framing",
    "checks.title": "Other site checks",
    "checks.columns": "item | required | measured | verdict",
    "checks.not-met": "not met",
    "materials.columns": "count | item | length",
    "alternatives.title": "Alternatives",
    "schemes.title": "Ways to build it",
    "schemes.none": "There is no stack to choose: nothing is screwed to the rear wall here.",
    "schemes.columns": " | boards and screws | holds | used | why not",
    "schemes.chosen": "this one",
    "findings.title": "Findings",
    "severity.fails": "FAILS",
    "severity.warns": "Warning",
    "severity.notes": "Note",
    "cautions.title": "Cautions",
    "work.title": "Work shown. {part}",
    # the sections of the check on site
    "check.todo": "What to do",
    "check.problem": "Problem: {code}",
    "check.contact": "Contact as found",
    "check.legs": "Legs at contact, restraint as found",
    "check.legs-after": "Legs at contact, once all of it is done",
    "check.points": "Points",
    "check.screw-places": "Where each screw goes",
    "check.warnings": "Warnings",
    "tolerance.title": "How sure this plan is",
    # what the floor and the wall were read from
    "floor.level": "The floor is level at the four leg spots ({how}; {on}).",
    "floor.highest": "The {highest} leg spot is the highest, {difference} above the {lowest} "
    "({how}; {on}).",
    "floor.down": "read down from the line",
    "floor.up": "read up from the datum",
    "floor.finished": "on the finished floor",
    "floor.subfloor": "on the subfloor, with {finish} of flooring to come added",
    "floor.unread": "The floor was NOT MEASURED: assumed level.",
    "floor.unread-to-come": "The floor was NOT MEASURED: assumed level, with {finish} of "
    "flooring to come added.",
    "floor.partly-unread": "NOT MEASURED at the {corners}: assumed to be at the datum there.",
    "wall.finished": "The niche's depth was measured to the finished wall.",
    "wall.to-come": "The niche's depth was measured before {finish} of finish goes on; the plan "
    "allows for it.",
    # mark
    "mark.soffit": "Nothing to frame: the underside of the soffit, {height} above the datum, is "
    "the restraint. Check it with a level.",
    "mark.boards": "Strike a level line {height} above the datum: the underside of the boards. "
    "Anywhere from {low} to {high} works.",
    "mark.spacers": "Strike a level line {height} above the datum: the underside of the "
    "{spacers}. Anywhere from {low} to {high} works.",
    "mark.above-line": "The same mark is {distance} above the laser's line.",
    "mark.below-line": "The same mark is {distance} below the laser's line.",
    "mark.over-spot": "The same mark is {height} above the finished floor at the {corner} leg "
    "spot.",
    "mark.anchors": "Look for wires, pipes and hollow spots between {low} and {high} above the "
    "datum, then mark the anchors at {spots} from the left side of the niche.",
    "mark.no-anchors": "Look for wires, pipes and hollow spots between {low} and {high} above "
    "the datum; no usable place for an anchor was given.",
    "mark.studs-unknown": "Find and mark the studs between {low} and {high} above the datum: the "
    "boards will land on at least {sure:stud|studs}, {best} at most.",
    "mark.studs": "Find and mark the studs between {low} and {high} above the datum; {centers} "
    "expected {spots} from the left side of the niche.",
    "mark.stud": "Find and mark the stud between {low} and {high} above the datum; {center} "
    "expected {spots} from the left side of the niche.",
    "mark.no-studs": "Find and mark the studs between {low} and {high} above the datum; none of "
    "those given can be used.",
    "mark.leave-out": "Leave out: {spots}.",
    # cut
    "cut.boards": "{count:board|boards} {board} {species}, {length} long; clear {clear} at each "
    "end.",
    "cut.blocking": "{count:piece|pieces} of {blocking} {board} {species}, about {length} long, "
    "to fit tight between the studs.",
    "cut.spacers": "{count:spacer board|spacer boards} {length} long and {depth} wide, from the "
    "soffit down: {pieces}; {total} in all.",
    # fasten
    "fasten.blocking-planned": "First build the {blocking} in between the studs, behind the "
    "whole stack, before the wall is closed. The screw layout depends on it.",
    "fasten.blocking-unplanned": "First build the {blocking} in between the studs, behind the "
    "whole stack, before the wall is closed. Then enter where it is and run plan again.",
    "fasten.at-wall": "at the wall",
    "fasten.inner": "the next one out",
    "fasten.outermost": "the outermost",
    "fasten.board": "Board {number} ({place}): {screws}, {per_stud} per stud, {where}; "
    "{embedment} into the stud.",
    "fasten.board-anchors": "Board {number} ({place}): {screws}, {per_stud} per place, {where}; "
    "{embedment} into the wall.",
    "fasten.board-blocking": "Board {number} ({place}): {screws}, {per_stud} per place, {where}; "
    "{embedment} into the blocking.",
    "fasten.washer": "{where}, a washer under each head",
    "fasten.counterbored": "{where}, counterbored {depth}",
    "fasten.rows": "{heights} above the underside",
    "fasten.rows-left": "{heights} above the underside, {offset} left of the {each}'s {center}",
    "fasten.rows-right": "{heights} above the underside, {offset} right of the {each}'s {center}",
    "fasten.stack": "The stack stands {projection} out and reaches {overlap} over the top of the "
    "{appliance}.",
    "fasten.spacers": "Set the {spacers} with their rear edge {from_wall} out from the rear "
    "wall, over the rear of the {appliance}, with framing over all of them; the load goes up "
    "through them, the screws just hold them in place.",
    "fasten.spacer": "{spacer} {number} of {of}: {screws} up into the soffit's framing, {across} "
    "from its rear edge, one at each framing member and at least two; {embedment} into the "
    "framing.",
    # holes
    "hole.as-maker": "{screw}: holes as its maker says",
    "hole.lead": "{bit} pilot hole in the {member}, {depth} deep",
    "hole.clearance": "{bit} clearance hole in the {member}",
    "hole.counterbore": "{bit} counterbore in the {member}, {depth} deep",
    "hole.wrench": "turn it in with a {wrench}; never hammer it in",
    # set
    "set.roll-in": "Legs in, doors taped shut: two or more people roll the {appliance} in and "
    "back.",
    "set.raise": "Raise the {appliance} level. Legs out by: {legs}.",
    "set.leg": "{corner} {extension}",
    "set.leg-turns": "{corner} {extension} ({turns} turns)",
    "set.contact": "Stop at contact: a strip of paper at both ends of the overlap just drags, "
    "then stop turning. The legs can jack hard enough to pull the screws out.",
    "set.contact-solid": "Stop at contact: a strip of paper at both ends of the overlap just "
    "drags, then stop turning. The legs can jack harder than the restraint is asked to hold.",
    "set.shim": "At the other end shim the gap of up to {gap} tight, over the whole overlap.",
    "set.season-boards": "Check the contact again after the first heating season: boards shrink "
    "across their width.",
    "set.season": "Check the contact again after the first heating season: wood shrinks.",
    # the sheet
    "sheet.spacer": "{spacer}",
    "sheet.center": "{center}",
    "sheet.centers": "Stud {centers}",
    "sheet.spacers": "{spacers} under the soffit",
    "sheet.spacers-short": "{spacers}",
    # cautions
    "caution.people": "Two or more people; doors taped shut until the {appliance} is braced.",
    "caution.services": "Find wires and pipes before drilling into a wall or a soffit.",
    "caution.finish": "Finish is still to come: measure again on the finished floor and wall.",
    "caution.legs-screws": "Stop the legs at contact: they can jack hard enough to pull the "
    "screws out.",
    "caution.legs": "Stop the legs at contact: they can jack harder than the restraint is asked "
    "to hold.",
    "caution.codes": "Local codes, the {appliance}'s own instructions and licensed trades come "
    "first.",
    "caution.no-approval": "This plan is a calculation from what was given; it is not an "
    "engineer's approval.",
    # a stack that stands
    "fault.NO_WOOD": "no wood behind",
    "fault.NEAR_EDGE": "too near the stud's edge",
    "fault.NEAR_END": "too near the board's end",
    "fault.TOO_SHORT": "only {embedment} into the stud, {required} needed",
    "fault.FAR_SIDE": "the tip comes out of the far side of the stud",
    "fault.GAP": "the maker's values are for a smaller gap",
    "fault.UNDER_HEAD": "too little wood under the head",
    "fault.OLD_HOLE": "too near an old hole",
    "standing.fault": "{count:screw|screws} of the boards that stand, at {at} from the left side "
    "of the niche: {why}.",
    "standing.close": "{count:screw|screws} of the boards that stand, at {at} from the left side "
    "of the niche, keep the least distance from the stud's edge by less than a reading is "
    "uncertain.",
    "standing.close-remedy": "Find both edges of those studs again.",
    "standing.lost": "Do not rely on the boards that stand. {text}",
    "standing.not-located": "The boards are up, and where their screws are was neither planned "
    "nor read.",
    "standing.not-located-remedy": "Read the places of the screws from the left side of the "
    "niche (--fixed-at).",
    "standing.screws-miss-wood-remedy": "Find both edges of each stud again, then move those "
    "screws into its middle, clear of the old holes.",
    "standing.screws-too-short-remedy": "Back those screws out and drive longer ones beside the "
    "old holes.",
    "standing.screws-near-end-remedy": "Put up boards of the full length, or move those screws.",
    "standing.soffit-not-usable": "The restraint can't be the soffit as found: {why}.",
    "standing.soffit-not-usable-remedy": "Put boards on the rear wall, or have the soffit made "
    "solid over the rear of the {appliance}.",
    "standing.leg-seized": "The {corner} leg does not turn: it is {now} out and would have to be "
    "{wanted} out for contact.",
    "standing.leg-seized-remedy": "Free or replace that leg before anything else; never lift with "
    "the other three alone.",
    "standing.trim": "Cover trim stands where the boards reach over the {appliance}.",
    "standing.trim-remedy": "Take the cover trim off before the {appliance} is raised.",
    "standing.screws-too-long-remedy": "Back those screws out and drive shorter ones beside the "
    "old holes.",
    "standing.screws-too-close-remedy": "Move those screws clear of the old holes.",
    "standing.too-few": "Screws of the outermost board bite at fewer than two studs: the boards "
    "that stand hold nothing.",
    "standing.too-few-remedy": "Fasten the boards again to two studs or more, or take them down "
    "and build {blocking} in.",
    "standing.through-soffit": "By these readings the boards' top stands at {top} above the "
    "datum, {over} past the soffit at {soffit}.",
    "standing.through-soffit-remedy": "Read the boards and the soffit again; if they stand so, "
    "lower the boards by {over}, or put up narrower ones.",
    # what a crew may do
    "act.take-down": "Take the boards down and put new ones up, underside at {height}, with "
    "screws clear of the old holes",
    "act.rebuild": "Rebuild the stack from {size}{of}, underside at {height}",
    "act.of-boards": ", {boards:board|boards}",
    "act.back-out": "Back out {count:screw|screws}: {at}",
    "act.drive": "Drive {count:{kind}|{kind}s}, {screw}{sunk} ({source}), through board "
    "{board}: {at}",
    "act.sunk": ", sunk {depth}",
    "act.at": "at {places} from the left side, {height} above the underside",
    "act.shim-gap": "Shim the gap of {gap} at the {end} end tight over the whole overlap "
    "({pieces}) before you count on the bracing",
    "act.more-at-end": ", and {gap} more at the {end} end",
    "act.shims-fastened": "; glue it and drive two No. 8 screws up through it into the boards "
    "beside each stud, clear of the boards' own screws: they only keep it in place",
    "act.spacers-fastened": "",
    "act.at-each": "{text}, {count} at each of {places} from the left side",
    # remedies and what stands, in the check on site
    "fix.needs": "Needs from the {truck}: {needs}",
    "fix.blocking": "{count:piece|pieces} of {blocking}, {size} x {length}",
    "fix.shim": "{count:piece|pieces} of {size}",
    "fix.plate": "a plate {thick} thick ({corner})",
    "fix.then": "Then {spare} to spare, worst case",
    "fix.then-used": "Then {spare} to spare, worst case, and {used} used",
    "stands.title": "What stands, screw by screw",
    "stands.how": "From the left side of the niche, and above the boards' underside; into: into "
    "the stud, in the wall that was found.",
    "stands.board": "board",
    "stands.screw": "screw ({unit})",
    "stands.from-left": "from left",
    "stands.above": "above",
    "stands.into": "into",
    "stands.state": "",
    "stands.holds": "holds",
    "stands.close": "near edge",
    "stands.NO_WOOD": "NO WOOD",
    "stands.NEAR_EDGE": "NEAR EDGE",
    "stands.NEAR_END": "NEAR END",
    "stands.TOO_SHORT": "TOO SHORT",
    "stands.FAR_SIDE": "TOO LONG",
    "stands.GAP": "GAP TOO WIDE",
    "stands.UNDER_HEAD": "THIN UNDER HEAD",
    "stands.OLD_HOLE": "ON OLD HOLE",
    "act.free-leg": "Free or replace the {corner} leg",
    "act.trim-off": "Take the cover trim off; keep it to go back on after the bracing is checked",
    "act.roll-out": "Roll the {appliance} out first, legs in, doors taped shut, two or more people",
    "act.put-up": "Put up {boards:board|boards} {size} on the rear wall, underside at {height}",
    # rollers at the rear that don't lift
    "rear.does-not-lift": "The rear stands on rollers that do not lift: only the front legs turn. "
    "The top stays {gap} under the restraint at the rear; there is no contact but by shims.",
    "rear.does-not-lift-remedy": "Fill that gap from above, {gap} of solid shims tight over the "
    "whole overlap, fastened to the boards; without them the restraint holds nothing.",
    "set.shim-above": "The rear does not lift: fill the gap of {gap} from above, solid shims tight "
    "over the whole overlap, until a strip of paper just drags at both ends.",
    # the walk with a tape: check --ask
    "ask.how": "Enter keeps the plan's value; back goes back; ? says how values are "
    "typed. Several values go between semicolons, - is one not measured; "
    "repeat readings of one length are joined by and, as 33 1/4 and 33 "
    "5/16.",
    "ask.path_high": "Highest floor on the way in, above the datum",
    "ask.width": "Niche width at each point",
    "ask.depth": "Niche depth at each point",
    "ask.soffit": "Soffit above the datum at each point",
    "ask.line": "Height of the laser's line above the datum, where one is used and known",
    "ask.floor": "Floor at the leg spots: front left; front right; rear left; rear right"
    " (d first: down from a laser's line)",
    "ask.studs": "Stud {centers} from the left side of the niche",
    "ask.layers": "Wall from the room to the studs",
    "ask.boards_up": "Are the boards up",
    "ask.board": "Underside of the boards above the datum: left; right",
    "ask.projection": "Wall to the face of the front board: left; right",
    "ask.fixed": "Screw in each board, from the wall outward, as 10 x 3 1/2; 12 x 5",
    "ask.fixed_at": "Where those screws are, from the left side",
    "ask.legs": "How far each leg is out: front left; front right; rear left; rear right",
    "ask.screws": "Screws on the {truck}, as 10 x 3 1/2; 12 x 5",
    "ask.more": "Anything else: hollow soffit, other studs, blocking, short or twisted "
    "boards, stuck leg, trim, {appliance} already in",
    "ask.soffit_solid": "Is the soffit solid: yes or no",
    "ask.soffit_depth": "How far the soffit reaches out from the rear wall",
    "ask.framing": "What the studs are: wood, steel, masonry, unknown",
    "ask.blocking": "Solid blocking between the studs: yes or no",
    "ask.board_start": "Left end of the boards from the left side",
    "ask.board_length": "Length of the boards",
    "ask.twist": "How much higher their front edge stands than at the wall",
    "ask.seized": "Legs that don't turn, as rear left",
    "ask.trim": "Cover trim in the way: yes or no",
    "ask.unit_in": "Is the {appliance} in the niche already: yes or no",
    "ask.first": "That was the first question.",
    "ask.go-on": "An earlier walk was stopped after {count:answer|answers}. Go on with them [Y/n]",
    "ask.stopped": "stopped; what was typed is kept in {file}, and --ask goes on with it",
    "ask.nothing": "stopped before the first answer; nothing was written",
    # where screws come from
    "source.HELD": "as planned",
    "source.ON_HAND": "from the {truck}",
    "source.LISTED": "of those that the job lists",
    "source.TO_FETCH": "to get: not on the truck",
    "act.other-screws": "Use other screws {source}",
    "act.on-hand": "{text} (on the {truck})",
    "act.blocking": "Add {blocking} {between}, behind the whole stack",
    "point.on-hand": "on the {truck}",
    "point.not-on-hand": "not on the {truck}",
}
