// Of each way in the lists of ways, in their order: bits of words of which each text that it takes has one, a line for each way. Written by .ci/generate-ways.ts; a test fails where it is stale.

export const needs = {
  faults: `
 sound / bang / chatter / clack / clang / clatter / click / clonk / clunk / creak / crunch / drone / flutter / graunch / grind / groan / growl / hammering / howl / hunting / jerk / judder / kick / knock / lurch / misfire / noise / rattl / rumbl / scrap / screech / shak / shimmy / shudder / snatch / squeak / squeal / surging / tap / thump / tick / tramp / vibrating / vibration / wander / weave / whin / wobbl
backlash / looseness / lost motion / play / rock / slack / slop
bubble / dribble / drip / leak / puddle / seep / weep
air / bind / blow / brake / catch / clutch / crack / creep / hard  / harshness / haze / notch / pull / roughness / scor / slip / smell / smoke / spark / stiff spot / stiffness / stink / tight  / tightness
began / begins / begun / start
binding / clonking / clunking / coming down / dragging / dripping / grinding / howling / knocking / leaking / overheating / rubbing / rumbling / running back / seizing / shaking / sinking / slipping / smoking / squealing / vibrating / weeping / whining / wobbling
binds / blows / clonks / clunks / creaks / creeps / drags / flickers / fouled / fouls / grabs / groans / growls / howled / howls / hunted / hunts / jams / juddered / judders / knocks / leaks / misfired / misfires / overheats / pulses / rattled / rattles / rolls back / rumbled / rumbles / runs back / sags / screeched / screeches / seeps / shakes / shimmied / shimmies / shuddered / shudders / sinks / smoked / smokes / snatched / snatches / squeaks / squealed / squeals / stalled / stalls / sticks / surges / thumps / vibrated / vibrates / wanders / weeped / weeps / whined / whines / wobbled / wobbles
pull
touch
clicks once
only at 
tail wags
steam 
chatters / clonks / clunks / creaks / crunches / fouls / freewheels / groans / growls / jams / judders / jumps / leaks / misfires / overheats / rattles / rubs / rumbles / sags / screams / screeches / seeps / shimmies / shudders / sinks back / slid back / smokes / snatches / squeals / stalls / sways / vibrates / walks out / weeps / whines / whips / wobbles
binding / blowing / bulging / chafing / clonking / clunking / creeping / crunching / dragging / dripping / flickering / fouling / grinding / howling / juddering / jumping / knocking / leaking / overheating / pouring / rattling / rubbing / rumbling / sagging / shuddering / sinking / slipping / smoking / squeaking / squealing / sticking / weeping / whining / wobbling
adrift / chafed / chewed / cracked / frayed / glazed / graunchy / gritty / jerky / loose / missing / notchy / plugged / scored / spongy / torn
stuck
got 
everything got
 broke
 undone
fall
fell off
comes off 
binding / blowing / climbing / coming / creeping / dropping / falling / going out / jumping / leaking / popping / pulling / slipping / stalling / sticking / tripping / turning / working loose
 out of /  over the  /  overran / adrift / apart / birdcaged / boiled / broke away / came / climb / fell / flew / hangs up / hung up / jump / locked solid / nipped up solid / out of mesh / overshot / picked up on / pop / runs away / seized / seizes / shoot / slackened off / snake / stuck  / tucked in / undone / unscrewed / walked  / work
hot / warm quick
 hot
too warm
hand / hold / touch
hotter / warmer
running 
hot spot
 on one side
bent / binding / blowing / catching / cent / chafed / chafing / clicking / clonking / clunking / clunky / cracked / creaking / creeping / crooked / dodgy / dragging / dripping / fading / feeble / flickering / fouling / glazed / graunchy / grinding / gritty / groaning / howling / hunting / jammed / jerky / juddering / jumping / knocking / leaking / leaky / loose / lumpy / mushy / noisier / noisy / notchy / out of  / overheating / passing / rattling / rough / rubbing / rumbling / rumbly / sagging / scored / screeching / seized / shedding / shuddering / sided / sinking / slack / slipping / sloppy / smoking / spongy / squeaking / squealing / sticky / stiff / suspect / ticking / touching / twisted / unbalanced / uneven / vague / vibrating / walking / wandering / weak / weeping / whining / wobbling / wobbly / wonky / woolly / worn / wrong
bent / binding / blowing / catching / cent / chafed / chafing / clicking / clonking / clunking / clunky / cracked / creaking / creeping / crooked / dodgy / dragging / dripping / fading / feeble / flickering / fouling / glazed / graunchy / grinding / gritty / groaning / howling / hunting / jammed / jerky / juddering / jumping / knocking / leaking / leaky / lumpy / mushy / noisier / noisy / notchy / out of  / overheating / passing / rattling / rough / rubbing / rumbling / rumbly / sagging / scored / screeching / seized / shedding / shuddering / sided / sinking / slacker / slipping / sloppy / smoking / spongy / squeaking / squealing / sticky / stiff / suspect / ticking / touching / twisted / unbalanced / uneven / vague / vibrating / walking / wandering / weak / weeping / whining / wobbling / wobbly / wonky / woolly / worn / wrong
action / air / arbor / arbour / axle / ball / bearing / bell / belt / bevel / blade / boat / box / brake / bush / cage / caliper / calliper / cap / car / chain / change / clapper / clutch / cog / column / crane / crank / cylinder / diff / drag link / drum / engine / exhaust / fit / flange / fork / front end / fuel / gear / gland / governor / grease / guard / gudgeon / handle / head / hoist / hook / hose / hub / jib / joint / king / latch / lever / lift / linkage / lorry / mechanism / mill / motion / motor / movement / oil / pawl / pedal / pin / pipe / piston / platform / plug / prop / pump / ram / rear end / release / return / reverser / ride / rim / rope / rotation / rudder / seal / selector / shaft / slide / stay / steam / steering / stem / stock / stone / swivel / table / tailboard / throttle / tiller / track rod / tractor / trailer / trunnion / tyre / union / valve / van / wallower / water / wheel / winch
feel / felt / handle / move / ran / run / steer / turn / work
 pedal
pedal 
pedal 
goes / pumps / pushes / strokes
to the bar
noisy
noisier
slightly out
sloppy
heavy 
tight 
stiff 
can 
can be rocked / lifts / moves about / rocks / wanders
just / only
 only
only 
all 
hard on the 
off the edge
one time in
once / twice
times in ten
only 
 only 
 cylinder
 first
balance out / out of balance / unbalanced
lost / shed / threw
after / finger-tight / gone / in the tray / left over / loose / lying / missing / on the  / slack / somewhere / undone
adrift / backed off / broken / cracked / finger / forgotten / left out / loose / lost / missing / moved / not  / sheared / slack / snapped / split / stripped / turned  / undone
bent
a further / an extra / another
needed / took / wanted
left 
 left
in the tray / left on the bench / left over / on the bench after
forgot
 thread
stripped 
spun in 
crack
cracke
bent / broken / chipped / cracked / split
line / mark
 split
split already
chewing 
bits / brass / bronze / chips / debris / filings / flake / fluff / fragments / glitter / iron / metal / particles / shavings / sparkle / specks / splinters / steel / swarf
metal in it
 in the 
milky
dot  / fluid / fuel / grease / oil / petrol / water
dust / flake / paste / showing
fine stuff and
bilge 
full of 
water in the 
like gold paint
charge / needle / pressure / vacuum
pressure / vacuum
dropped / drops / falls / fell
lost 
lamp / light
smel
climbing / dropping / falling / growing / rising
crunch
bind / catch / creep / drag / fade / foul / grab / judder / jump / knock / leak / pull / rattle / rub / slip / squeal / stick / weep
discolo / frayed / hung up / pitting / seeping / shaped / whipping / worn through
something 
pass
 passing
changed / getting
catches 
to be re
hairline
broken wire
strand
crack 
stripped
came loose
undid itself
unaccounted
oil everywhere
wrong way 
doubled / open / trebled
pedal to the 
slid off
 like a bag
spotted
stretched 
thread
i guessed
best i could do
came down / creeps / crept / dropped / drops / fell / lowered itself / ran back / rolled back / sagged / sank / sinks / slipped / slips / sunk
again / by it / of it / on its / on the
crept 
let go / moved / opened / released / slewed / turned / went down
bent / bowed / buckled / deformed / gave / grew / opened  / spread / stretched / twisted
permanent set
set of 
took a set
slipped 
slip
by hand / finger
tight
bent / broken / chewed / chipped / cracked / frayed / split / torn
bent a nail
temporary
taped 
used the old 
could do with / need / ought to / require / should / want
'll / going to / has to / have to / may / might / must / shall / will
lumpy / rough / stiff / tight
stiffen
tight 
drop
 the 
damp 
hiss
 on the 
needed / needs / takes / took / wanted / wants
under the bar
bites / closes / comes  / engages / holds / latches / lets go / locks / returns / shuts / starts / works
had to / has to / have to / must / needs to
hard / heavily / heavy / mainly / mostly / strong
may / should / will
should / will
 only
only 
bears / blue / contact / grey / marks / touches
 at one 
the new 
bled / came / comes / drawn / draws / drew
only the 
tapered
notch / serration / spline / teeth / tooth
short of 
ought / should
always stop
 always / always stop
harder / heavier / stiffer / tighter
dead / dull
hits / meets / reaches / touches
before the 
hair / line
hair / line
 springy
eight / five / four / six / three / twelve
along the 
still a 
still in 
shine in 
left / missed
early / late
near enough
cable / hose / loom / pipe / wire
hang
stir
moves / spins / stirs / turns
last 
second / third
better / firmer / harder / higher
knocks / rattles / shakes / shimmies / wobbles
straight 
 both 
deeper / duller / fainter / less than before / softer
nipped up 
stopped 
gurgles
wants to 
binds / drags / knocks / leaks / pulls / rubs / shakes / wanders / weaves / wobbles
still 
twice 
remained / remains / stayed / stays
pull
crept 
found 
cut out / cuts out / laboured / labours / tripped / trips
still 
bright with / covered  / full of / grey with / thick with
 with 
backed / come / dropped / fallen / walked / worked
before / ever / it did / it was
bang
shimmies / snakes / tramps / wanders / weaves
warm enough to 
bar a
 sing
pull
 then 
the rest 
only 
patchy
edge
brushes / fouls / grazes / kisses
 lower after
dead / dull
binds / catches / grates / scrapes / sticks
had to use 
labouring
 off at 
wants a
slips off
`,
  faultsDenying: `
as bad / back / getting / no better / present / returned / the same / there / worse
away / better / cured / fixed / gone
knock / leak / noise / rattle / rumble / shimmy / wobble
can not / can't / cannot / could not / couldn't
brake / charge / clutch / compression / damping / drive / feel / pressure / response / reverse
nothing 
died / down / dropped / drops / faded / fades / falls / fell / goes / sank / went
 nothing
has no effect
hardly 
will hardly
nothing much
 never / n't / not / n’t
refused / refuses
condemned / refused / rejected
unable to 
never 
fail
inoperative
out of action
dead
better / different / further forward / good / improvement
as bad as
 the same 
same 
worse 
worse
back to square one
could be 
balanced / central / certain / convinced / cured / fixed / free / gone / good / happy / ideal / perfect / ready / right / safe / satisf / smooth / solved / square / sure / tight enough / true / well / what it should
something 
hotter / louder / slacker / stiffer / worse
bent / bled / central / connected / fitted / home / line / locked / pinned / place / safety / seated / square / tightened / torqued / wired
same 
gone back to how
 find 
could be the
ought to / should
twice as 
 out of
more than 
faster than i like
 home /  live with / 'll be right / almost right / assum / best i can do / call / close enough / do not like / don't like / don't trust / doubtful / fingers crossed / for now / good enough for  / guess / have seen better / hopefully / hoping / i hope / i suppose / it'll do / just about / keep an eye / may be / maybe / might be / more or less / near enough  / nearly right / not convinced / not sure / probably / reckon / risk it / see how it  / seem / should be  / shouldn't matter / so-so / sort of works / take its chance / time will tell / took it as read / touch wood / unsure / we'll see / who knows / will do / will see how / would not / wouldn't
ran out of 
couldn't / didn't / hasn't / haven't / never / no chance to / no time to / not / yet to
cut short
gave up
given up
abandon
broke down
had to 
 on the 
shut / switched
stopped the 
stopped 
broken off
still to 
bleeding / locking / pinning / torquing / wiring
skipped
the test
only 
by hand only
brake / engine / load / motor
other / rest
no road test
to be 
driver / fuel / load / road / steam / test / time / water / weight
can / could
 only 
blue / dye
checked / dyed / felt / looked at / seen / tried
it was 
dyed / got at / looked at / reached / seen / tested / tried
about / here / left / to hand
 again
nothing 
nothing at the 
come / follow
found 
broken / chipped / gone / missing
come / follow
would
next  / tomorrow / wait
will 
i leave to the / left 
`,
  alsoBadly: `
once / twice
ran on 
away / back / drop / fall / slip
 slip / clutch 
came down / dropped / fell / slipped
 back  / came down by 
jump / missed / misses / skipped / skips
away / back
juddered / shimmied / swayed / wandered / weaved / wobbled
 again
brake
 to pump  / brake / pedal
clutch  / crunch / grate / its own / itself / their own / themselves
 out of  / jump
bind / jammed / jams / sticks / stuck
only 
badly / too 
binding / dragging / grinding / juddering / knock / leaking / rubbing / rubs / rumbl / slipping / wobbling
grinding / judder / knock / rattle / rumble / shake / smoke / vibration / wobble
leak 
still 
 rubs
smoked / smokes / was smoking
climbs / growls / howls / itself / screams / shrieks / squeals / themselves
lost 
backed / came / fell / flew / shook / work
bent / broke / buckled / collapsed / cracked / parted / sheared / snapped / twisted
 itself
broke / buckled / collapsed / parted / sheared / snapped
nearly 
`,
  wentBadly: `
creeps / crept
drifted / drifts / sagged / sank / sinks
faded / fades
leaks
leaked / oozed / oozes / seeped / seeps / weeps / wept
pulled 
judders / knocks / shimmies / wanders / weaves / wobbles
shakes its head
still 
 out of
let
hook
let go
let go 
pull
gave way
adrift / loose / undone
boiled over / burst / overheated / ran away
failed / fails
did not / didn't / does not / doesn't
pulls 
still 
still 
hot
seized
brake
`,
  excusedFaults: `
hair
crack
flaw / fracture / line
line
 line
show
fracture / indication
indication
fractured / sheared / snapped / split 
bled / bleeding / bleeds
mark 
line 
brinelled / brinelling / flaked / flaking / frosted / galled / picked up / spalled / spalling
be felt / feel
catches / hangs / stops
to the depth of
deep 
bent / broken / chipped / cracked / ed over / gone / loose / missing / sheared / short / stripped / torn / worn 
bent / broken / chipped / cracked / loose / missing / sheared / stripped / torn
chipped / stripped / torn
below / bend / bent / chafed / chipped / cracked / drip / frayed / gritty / leak / loose / lumpy / nicked / notchy / out of  / oval / over / perished / rough / slack / stripped / torn / twisted / under / weep
bends / drips / grinds / knocks / leaks / rattles / rumbles / vibrates / weeps / wobbles
drips / knocks / leaks / rattles / rocks / weeps / wobbles
bend / knock / lash / leak / looseness / notchiness / play / rock / roughness / slack / weep / wobble
moves / rock / runs out / shifts / turns / wobbles
play / rock / wobble
altogether / entirely / fully / perfectly / quite / really
out of 
over what the 
limit / maximum / minimum
chafed / frayed / necked / nicked / perished / perishing / rounded / sagged / tired / wasted
heat mark
hot spot
necked / pulled / rounded / stretched / stripped
helicoil / insert
gone / missing
missing 
bent / loose / slack / worn
but / yet
thin
soaked
soaked 
play 
bent / chafed / frayed / gritty / loose / lumpy / notchy / perished / rotten / rough / slack / torn / twisted
bent / hammered / heated / knocked / levered / pressed / pulled / straightened
araldite / cable tie / duct tape / epoxy / filled  / filler / gaffer / gasket goo / glue / jb / zip tie
bushed / packed / shimmed / sleeved / wrapped
centre / drilled
peened 
locker / loctite / thread
above / beyond / exceed / out of / outside / over / past
below / less than / under
under
backing / bare metal / canvas / cord / rivet / steel / wire
chafed / corroded / eaten / rubbed / rusted / wasted / worn
in half / through
bent / corroded / cracked / leaky / loose / notchy / perished / pitted / rough / rusted / scored / worn
face / journal / path / race / roller / running / seat / track
 burn
burnt 
heat
annealed / soft / temper 
pitted 
stick
bent  / between / line / on mandrel / round / square / straight / true
hooked / pointed / splines 
 than the 
rocks
drawn out to / has opened / shaped / to an egg
fretted
sloppy 
blocked
flat
`,
  later: `
must be / should be / to be / will be
after / another day / as soon / autumn / later / new one / next  / one day / some / spring / then / when / winter
next 
after / another day / autumn / in use / later / next  / on the road / one day / some / spring / then / winter
again 
keep 
autumn / spring / summer / winter
goes on until
`,
  stopgap: `
for / just
til
til
good enough
 will / 'll
will do
near enough
get  / hold / last / see 
home
temporar
stop
money / new  / replacement / spare / stock / time
in stock / to be had
stock
arrived / come / delayed / here / late / on order / to be had / unobtainable
wait
boss / chairman / client / customer / driver / foreman / owner
in a hurry
needed / wanted
need / want
costly / dear / expensive / much 
bought / found / got / had
unobtainable
no one / nobody
supplier 
new 
old one again
 for 
`,
  unknown: `
n't / never / no one / nobody / not / without being
check / feel / find out / get  / have  / judge / look / make out / measure / reach / see / tell / test
book / data / dye / figure / gauge / lamp / limit / look / means / mic / mirror / test / tool
still / yet
didn't / haven't / never / not / without
back / come / done / here / made / to do
 only 
only 
too 
it was 
forg
lost / mislaid
was / were
must be 
with 
certain / clear / convinced / know / like / sure
 know
no idea
jumbled / mixed / muddled
which 
by mistake
unsure
unclear
 chance /  see / a risk / assume / believe / chance it / fingers crossed / guess / hope / hoping / let / maybe / perhaps / possibly / presumably / probably / reckon / risk it / suppose / think / time will tell / touch wood / trust / who knows / with 
could / may / might / must
ought / should / would
appear / look / seem
seem
at a glance
eye / feel
eye / feel
alone / only
normal
?
'll / will / would
said / say
reckon / thinks / thought
 matter
critical / safety
only 
only 
low speed only
do not / don't / would not / wouldn't
crack 
crack 
they
 been 
been / was / were
all / for / last / many / since
never 
not 
could be worse
seen worse
not crack
said 
`,
  wanting: `
at hand / here / in the  / left / to be had / to hand
broken / lost / missing / on order / out of stock / still to come
out of 
forgot / later / lost / mislaid / to be  / to come / tomorrow
hole / slot
does
do not / don't
not sure
tight enough
`,
  goodsStillWrong: `
bent / broken / chipped / cracked / damaged / dented / left-hand / loose / oval / perished / pitted / rusty / scratched / short / soft / split / tapered / torn / worn
bent / broken / chipped / cracked / damaged
rust in the
blocked
perished
thread is left
`,
  goodsWrong: `
crack / flaw / hole / inclusion / indication / lap / porosity / undercut
chip / crack / flaw / indication / line / mark
showed / shows
cracked in
 out of
has undercut
has the old 
asked for / ordered / wanted
grinding burn
sound
porous
 to be 
to be 
still 
only the 
returned as it came
as it came
 to the old size
forgot
left it
for the 
for the other 
is for the 
different / other / wrong
is another
box says
standard size
 what was ordered
second hand
from a 
marked not for
not for 
 stuff
 short
 short
ordered / wanted
less the 
half 
of one 
over the 
below / under
lower than
too 
a size too
bigger / long / narrow / short / slack / smaller / thick / thin / wide
slack 
loose in 
over / under
thou 
out of 
all the same / anyway / regardless
 used
used it
made it 
 will do
will do
but it fits
fits all the same
filed 
ground down by hand
just scrap
reject
scrap
 against
not worth
turned it over
no metal left
drip / leak / weep
failed at
failed
mended with
came loose
straightened cold
is sharp
poor finish
scratched across
swarf in
metal left
tin was open
fell off the
corner gone
worn already
only the first
blistered / flaking / lifting / peeling
 says 
stamped 
`,
  goodsWrongDenying: `
came without 
not 
 not / n't
can / could
asked / ordered / right / same
certificate / heat treatment / name / number / papers / radius / test
weld is not
`,
  plainly: `
thread
 on crossed
crossed 
thread
hole / thread
stripped the
broke / sheared / snapped / split
other / wrong
wrong 
back to front
upside down
inside out
top for bottom
the wrong 
other / wrong
can't / cannot / could not / couldn't
`,
  plainlyDenying: `
agree / face / line up / match / meet
not of 
number
`,
  readStillWrong: `
binds / gritty / notchy / rough / sticks
notchy
rocks
`,
  readWrong: `
grip / vice / vise
 in the air
on the bench
measured / read / taken
guess
by eye
about
 time / copied / from memory / off the old card
dirty / not cleaned / paint 
clock 
needle 
gauge 
`,
  readWrongDenying: `
can / could
measured / read / taken
only 
bolt
`,
  workStillWrong: `
binds / fouls / grates / growls / sloppy / wobbles
drip / leak / weep
rock
moves / rocks / shakes / stirs / turns
still 
loose on 
slack in the
rubs 
bent / chipped / cracked / loose / missing / split / stripped / torn
 missing
 left out
 in it
came / coming / in it
 gap 
missing
longer / shorter / thicker / thinner
gritty / notchy / rough / stiff / tight
back to front / upside down
nail
`,
  workWrong: `
dog / notch / serration / spline / teeth / tooth
changed / swapped
left / near
left / near
turning
spun 
rounded off
stretched 
necked
creaked
turn
turn with the nut
broke / burst / cracked / snapped / split / tore / torn
broke off
bent 
twisted in 
kinked / nipped / pinched / trapped / twisted
kinked
fell / slipped
fell on 
dropped 
clutch plate / disc / drum / friction plate / lining / pad / shoe
fluid / grease / oil
ball / bit / clip / nut / rag / roller / screw / split pin / swarf / tool / washer
must be 
left 
 somewhere
took whichever
whichever came to hand
 enough
out of 
mower / scrap / wreck
from the old 
bent a nail
chewing gum
a nail 
'll / will
should / will
good enough
close enough
all the same / anyway / nonetheless / regardless
looks 
 it goes
anyhow / anyway / as well
hope 
fingers crossed
 hold
 a guess
guessed
at that
left 
hammered 
forced 
bottomed / bottoms / bound
end of 
thread
out of thread
tight
tight only
by hand / tight
still only by hand
proud / short / stand
a longer / a new / a thicker / a thinner / another / one more
another 
where 
where 
forgot
skipped
ran out of 
half full
 side
only 
left / still
left 
left 
 left 
left dry
to be
later / tomorrow
to do 
will 
seized / stuck
through to the 
mouthed
blocked / closed / covered
started dry
 nothing for
too hot to touch
dropped in cold by its own weight
strained through
 crack
a crack in the
 crack
got most of it out
most of it out
earlier / later / next / other
is for the 
another 
bigger / longer / shorter / smaller / thicker / thinner / too 
a bit / a little / too
behind the bench / only 
in a  / pulled it up with the nut
stood 
nothing left to draw / through to the head
shade / touch
through a  / topped up with what
fluid / grease / oil
had lost its 
turned by a
 in and / torn at 
there is no 
nearly 
still through the 
sound
 left
for / through
an indication 
 width off
`,
  workWrongDenying: `
 soft 
turned on without
not through
 not / n't
will / would
won't 
never 
could
had no 
about / for / here / left / to hand
 left
all the way / bent over / bled / full / greased / locked / oiled / pinned / quite  / reached / right home / seated / sure / tightened / torqued / wired
figure / torque
not 
 not know where
`,
};
