/** Why printed figures are not measured on their sheet's own drawing, and which they are, by label or by table and column. */
export const unmeasured: readonly (readonly [reason: string, labels: readonly RegExp[]])[] = [
  [
    'an input, a count or a size of a standard, printed as it was given',
    [
      /^(?:Arms|Arms of each plug|Darts|Gores|Blanks|Holes|Marks|Segments|Bends|Slots|Tapes)$/,
      /^(?:Plate|Root gap, each end|Root gap, each weld|Saw kerf.*|Run|Roll|Rise|Chord|Chord from end to end|Mark to mark|Foot|Upright|Length)$/,
      /^(?:Inside radius|Bend radius on the center line|Legs together|Small end, circumference \(tape check\)|Weep hole|First hole at|Seam at station)$/,
      /flange gage: verify$/,
      /^(?:Turn|Included angle|Leg to the trunk’s axis|Latitude of the rim|Rim across|Its center to end|Take-off from)$/,
      /\| (?:Station|number|from|from middle.*|along|± along.*|⌀|ring ⌀.*|at|light|turn|bent|Latitude|Bent in by|radius|one higher|what)$/,
      /^(?:Parts and where|Along the run|ASME B31\.3|Advice only)/,
    ],
  ],
  ['mass', [/^Mass/]],
  [
    'of the part in space, not of its pattern: what is cut is held against the bodies it meets',
    [
      /^Surfaces(?: at the (?:large|small) end)?, (?:smallest angle|largest angle|all around)$/,
      /^For the weld/,
      /^Weld line(?: at the (?:large|small) end)?, on the outside$/,
      /^(?:Plate to level|(?:Left|Right) corner, between inside faces|Corners: .*)/,
      /^(?:Arms bend in by|Seams outside the ball|Radius to the middle of the plate|Length of the screw|Shortest line)$/,
      /^(?:Cut above|Cut below), from square$/,
      /^(?:Whole (?:lower|upper) end, once around)$/,
      /^(?:This end from square|B leans .*|B’s center.*|Line 0 meets B.*|Edges stand off.*|First turn|Second turn|First heel.*|Second heel.*|Roll from first to second)$/,
      /^(?:Joint line, from level|Joint line|Every side, (?:long|short) edge.*|Propped, miter alone|Sides at 60°.*)/,
      /^(?:Saw: lay it.*|Saw settings.*)/,
      /^(?:Closing corner|Closing check.*|Open: end to end|Legs when folded .*|Forged hot.*|Bend allowance|Check, .* out)$/,
      /^(?:Ellipse, half across|From the pipe’s center.*)$/,
      /^The piece cut off turns$/,
      /^(?:Center to end after the cut|Cope, .*: depth(?:, at least| at the beam’s end, plumb| at the corner, square to the beam))$/,
    ],
  ],
  [
    'longer than the sheet, or between sheets',
    [
      /^(?:Between reference edges|Center to center|Long point to long point|Short point to short point|By tape: from cut line to cut line.*)/,
      /^(?:Circumference \(tape check\)|Leg’s axis from the square line.*|Upper edge to .*|From the upper edge along the branch.*)/,
      /^(?:Center lines in all|Center line|Center line, start to finish|A weld along the (?:pipe|cone|length).*|Middle of each saw cut.*|Lengths of the pieces.*)/,
      /^(?:P\d, square ends|Pipe in all|Pipe to cut.*|Travel.*|Take-off of each turn|Turn at each end|Roll angle from plumb|Figures .*|First take-off|Second take-off|Cut to cut.*|Face to face.*|Center to mark|Straights (?:from A|and arcs).*)/,
      /^(?:Chord, end to end|Rise in the middle|Angle|Halfway along the arc to each end|Length along the arc|Joints, .*|Points along the arc.*)/,
      /^(?:Center of the other web to this end|Length to cut|Middle of every fold.*|Bar for all.*|Circle through the corners|Across flats.*|Opening|Diagonals, .*|Cut list.*|Corner to corner.*|Longest triangle|Instead, butted)/,
      /^(?:Mean radius|Mean diameter|Plate for (?:a full turn|this arc).*|Each next one, nested)/,
    ],
  ],
  [
    'what a reading, a tape or a level says, and how true it is',
    [
      /^(?:.* of light.*|.* in the points moves the radius|and the center|A prick .*|Known within.*|Readings off by|Points off the circle.*|Out-of-round.*|Share of the way around)$/,
      /^(?:Ovality.*|Largest.*|Smallest diameter|Off the pipe’s own diameter|Mean diameter.*|Girth|Top to bottom|Left to right|Lowest at station|Comes off at most|Out of square.*|Diameters as read.*|By tape: what comes off.*)/,
      /^(?:Diameter|Radius|One part straight across.*|One degree.*|Half the chord|Half of it, each reading|Chord’s middle to center|From the chord’s middle.*|Angle at the center|Along the arc|Center, [xy]|Points go around the edge|Both legs, when.*)$/,
      /^(?:Shim under.*|Slopes, .*|Drop over the run|Length along the slope|Line swings.*|What .* at the string.*|Length along.*)/,
      /^(?:As taped|Corners|Slide|Diagonal of 1 to 1|Both diagonals|A right angle by tape.*|When the diagonals differ.*|Two-holing.*|Level across holes|Tick from the inside corner|Around the outside from.*|These parts at other corners.*|Chords on a radius.*|Mark 0 to mark [69]0|[\d.]+° by tape)/,
      /^(?:Arc by tape.*|Points, and how far.*|Center, square off.*|If the rise is really.*|The radius rolled, by the light.*|Punch marks, from 0°.*)/,
      /\| tape from /,
      /^(?:K, from the inside|Least inside radius.*|Bends: from where.*|Deduction from.*)/,
    ],
  ],
  [
    'follows from others on the sheet that are measured, or stands on the drawing only for another form',
    [
      /^(?:(?:Outer|Inner) (?:radius|arc, .*)|Slant|Area of plate left|Bend line to small end.*|Length to cut, holes included|Bends in order, along from the start end \| (?:bend to|roll from the last)|Both diagonals, corner to corner)$/,
      /^(?:Long edge|Web left.*)$/,
      /\| (?:rolled|dished|up)$/,
    ],
  ],
  [
    'on this sheet for reading; the sheet of the same request that draws it measures it',
    [/^(?:Cut length|Bends in order.*)$/],
  ],
  [
    'with holes drilled at the ends of the notch it does not end in a point that is drawn',
    [/^Height of the notch over the hinge$/],
  ],
  [
    'drawn, but held only against the sheet’s own lines so far',
    [
      /^(?:Side \d, length up.*|By tape: along each edge.*)/,
      /^(?:Cut part \d, (?:long|short) point to end|Between the standing legs|Long to short point of one end|Along every edge, from cut to cut|Half of it|Stock it takes, long point to long point)$/,
      /^By tape: along the (?:stock|plate) from the reference line \| around$/,
    ],
  ],
];
