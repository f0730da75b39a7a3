/**
 * The parts list of the invented aircraft QX-OLA: 251 lines, 549 positions. INVENTED; nothing here is engineering data.
 *
 * Kept as a table (one line per part line) since that is how a parts list is read and corrected; `parts.ts` turns it
 * into data. Columns: line | part | hand | positions | material | as found | decision so far | bag | note. A heading
 * `# 10 Tail-wheel unit` opens an assembly.
 */
export const PARTS_TABLE = `
# 01 Hull fore (frames C1–C8)
01-01 | Bow cap, spun | C | 1 | dural 1.2 | dent 60 mm, filler 4 mm thick | repair | B101X | filler hides stretch; E-05
01-02 | Mooring bitt | C | 1 | bronze | sound, old rope wear | use | B102E |
01-03 | Mooring hatch | C | 1 | dural 0.8 | hinge line cracked 30 mm | repair | B103M |
01-04 | Mooring hatch hinge | L | 1 | steel | rust | clean-plate | B104V |
01-05 | Mooring hatch hinge | R | 1 | brass (not steel) | not original, odd screws | make | B105C | copy L; E-17
01-06 | Hinge screw 4 mm | L | 4 | steel | 2 sheared heads | clean-plate | B106K |
01-07 | Keel plate fore | C | 1 | dural 2.0 | pitting max 0.5 mm over 210 × 40 | open | B107T | thickness grid G-1
01-08 | Bottom skin, plank 1 | L | 1 | dural 1.0 | dished between C4 and C6, 7 mm | open | B108A | E-03
01-09 | Bottom skin, plank 1 | R | 1 | dural 1.0 | dished between C4 and C6, 9 mm | open | B109H | E-03
01-10 | Patch on plank 1 | R | 1 | aluminium, soft, 1.2 | 1952 patch, domed rivets 4.0 at 32 mm | pattern-only | B110R | never fit; E-04
01-11 | Frame C4 floor | C | 1 | dural 1.0 | flange buckled | make | B111Y | form block needed
01-12 | Frame C5 floor | C | 1 | dural 1.0 | flange buckled, 3 cracks | make | B112F |
01-13 | Frame C6 floor | C | 1 | dural 1.0 | straight; rivets smoked | repair | B113N |
01-14 | Chine angle fore | L | 1 | dural ext. | white powder behind 300 mm | replace | B114W |
01-15 | Chine angle fore | R | 1 | dural ext. | sound | use | B115D |
01-16 | Stringer bottom S1–S4 | L | 4 | dural ext. | 2 bent | repair | B116L |
01-17 | Stringer bottom S1–S4 | R | 4 | dural ext. | 3 bent | repair | B117U |
01-18 | Windscreen frame | C | 1 | steel tube | rust inside lower corner | repair | B118B |
01-19 | Windscreen pane | L | 1 | celluloid | yellow, crazed | make | B119J | keep as pattern
01-20 | Windscreen pane | R | 1 | acrylic | 1957 replacement | make | B120S |
01-21 | Cabin roof hatch | C | 1 | ply 3 mm | delaminated | make | B121Z |
01-22 | Roof hatch catch | C | 2 | steel | worn | clean-plate | B122G |
01-23 | Bilge plug | C | 2 | brass | thread 1/2 in BSF found in metric boss | open | B123P | Q-06
01-24 | Instrument board | C | 1 | ply 6 mm | 12 holes, 3 plugged | repair | B124X | ghost of a square dial; E-19
01-25 | Data plate | C | 1 | brass | present, two rivets not original | use | B125E | do not clean; E-01
# 02 Hull centre and aft (C8–C21)
02-01 | Frame C8 | C | 1 | dural 1.2 | sound | use | B126M |
02-02 | Frame C9 (gear frame) | C | 1 | dural 1.5 + steel caps | starboard lug tear, see T-1 | repair | B127V | E-09 E-10
02-03 | Lug plate, trunnion, outer | L | 1 | steel 4.0 | sound, cadmium gone | clean-plate | B128C |
02-04 | Lug plate, trunnion, outer | R | 1 | steel 4.0 | bent 6 mm outward, hole oval 25.0 × 26.1 | make | B129K | pattern from L mirrored
02-05 | Lug plate, trunnion, inner | L | 1 | steel 4.0 | sound | clean-plate | B130T |
02-06 | Lug plate, trunnion, inner | R | 1 | steel 4.0 | crack 11 mm from hole | make | B131A | keep, E-10
02-07 | Lug bolt M10 special | L | 6 | steel | sound | clean-plate | B132H |
02-08 | Lug bolt M10 special | R | 6 | steel | 2 bent, 1 missing | replace | B133R |
02-09 | Hull side skin panel 9 | R | 1 | dural 1.0 | torn 140 mm, 9 rivets pulled | repair | B134Y | data set T-1
02-10 | Hull side skin panel 9 | L | 1 | dural 1.0 | sound; chafe under fairing | use | B135F |
02-11 | Gear bay diaphragm | L | 1 | dural 0.8 | hand-written number in pencil | use | B136N | do not clean; E-12
02-12 | Gear bay diaphragm | R | 1 | dural 0.8 | crumpled lower third | make | B137W |
02-13 | Step plate, forward | C | 1 | dural 2.0 | pitting max 0.3 | repair | B138D |
02-14 | Keel plate aft | C | 1 | dural 2.0 | sound | use | B139L |
02-15 | Bottom skin aft planks 5–8 | L | 4 | dural 1.0 | light pitting | use | B140U |
02-16 | Bottom skin aft planks 5–8 | R | 4 | dural 1.0 | one plank replaced, other alloy | open | B141B | Q-07
02-17 | Frame C12 | C | 1 | dural 1.0 | sound | use | B142J |
02-18 | Frame C15 | C | 1 | dural 0.8 | crack at lightening hole, stop-drilled | repair | B143S |
02-19 | Frame C19 (tail-wheel frame) | C | 1 | dural 1.2 | rear flange folded, tow damage | repair | B144Z | E-08
02-20 | Stern post | C | 1 | steel tube 35 × 1.5 | bow 2.6 mm | open | B145G | dial data R-3
02-21 | Bilge drain tube | C | 3 | copper | against dural, powder | replace | B146P | galvanic pair P-2
02-22 | Inspection cover, round | C | 9 | dural 0.8 | 2 missing | make | B147X | make 2
02-23 | Cover screws M4 | C | 54 | steel | 41 present | replace | B148E | 6 different lengths
02-24 | Fairing, gear bay | L | 1 | dural 0.7 | sound | use | B149M |
02-25 | Fairing, gear bay | R | 1 | missing | not found | make | B150V | Q-02
# 03 Wing centre section and pylon
03-01 | Pylon strut front | L | 1 | steel tube 38 × 1.5 | sound, light rust in end | clean-plate | B151C | crack test
03-02 | Pylon strut front | R | 1 | steel tube 38 × 1.5 | dent 3.4 deep × 22 long, mid third | open | B152K | data set U-1
03-03 | Pylon strut rear | L | 1 | steel tube 38 × 1.5 | sound | clean-plate | B153T |
03-04 | Pylon strut rear | R | 1 | tube 42.4 × 3.25 spliced | water pipe, butt-welded 1952 | make | B154A | never fit; E-06
03-05 | Pylon diagonal | L | 1 | steel tube 28 × 1.2 | sound | clean-plate | B155H |
03-06 | Pylon diagonal | R | 1 | steel tube 28 × 1.2 | bow 4 mm | repair | B156R |
03-07 | Pylon foot fitting | L | 2 | steel forging | rust, threads good | clean-plate | B157Y |
03-08 | Pylon foot fitting | R | 2 | steel forging | 1 stretched eye | open | B158F | Q-09
03-09 | Pylon bolts M12 | L | 4 | steel | sound | replace | B159N |
03-10 | Pylon bolts M12 | R | 4 | steel | 1 is 1/2 in BSF | replace | B160W | E-16
03-11 | Front spar, centre | C | 1 | dural tube 70 × 2 | sound | use | B161D | eddy current
03-12 | Rear spar, centre | C | 1 | dural tube 60 × 2 | scratch 0.15 deep × 80 | repair | B162L |
03-13 | Centre ribs | C | 5 | spruce and ply | 2 split | repair | B163U |
03-14 | Fuel tank | C | 1 | tinned steel | pinholes, old solder | make | B164B | keep baffles as pattern
03-15 | Tank strap | C | 4 | steel | thin at edge | make | B165J | felt under
03-16 | Wing pin, upper | L | 2 | steel | 0.04 wear | clean-plate | B166S |
03-17 | Wing pin, upper | R | 2 | steel | 0.05 wear | clean-plate | B167Z |
03-18 | Shim, wing pin 0.5 | L | 3 | brass | 2 × 0.5, 1 × 0.2 | use | B168G | count matters
03-19 | Shim, wing pin | R | 0 | — | NONE fitted (recorded) | use | B169P | 'nothing here' record
03-20 | Lift strut, front and rear | L | 2 | steel tube, faired | sound | clean-plate | B350S | bolts counted with 03-07
03-21 | Lift strut, front and rear | R | 2 | steel tube, faired | front: dent, no crack | clean-plate | B351Z | E-23; see Q-17
# 04 Wing panels
04-01 | Front spar | L | 1 | dural tube 64 × 1.8 | sound | use | B170X |
04-02 | Front spar | R | 1 | dural tube 64 × 1.8 | kink 1.2 mm at rib 11 | open | B171E | E-11 roof fall
04-03 | Rear spar | L | 1 | dural tube 54 × 1.6 | sound | use | B172M |
04-04 | Rear spar | R | 1 | dural tube 54 × 1.6 | sound | use | B173V |
04-05 | Rib set 1–14 | L | 14 | spruce and ply | 11 good, 3 damp | repair | B174C |
04-06 | Rib set 1–14 | R | 14 | spruce and ply | 6 crushed near tip | repair | B175K |
04-07 | Drag wire 4 mm | L | 6 | steel | sound | use | B176T |
04-08 | Drag wire 4 mm | R | 6 | steel | 2 stretched | replace | B177A |
04-09 | Compression tube | L | 4 | dural | sound | use | B178H |
04-10 | Compression tube | R | 4 | dural | 1 dented | replace | B179R |
04-11 | Tip bow | L | 1 | ash | woodworm | make | B180Y |
04-12 | Tip bow | R | 1 | ash | broken | make | B181F | two left bows found in box! Q-10
04-13 | Aileron | L | 1 | dural and fabric | sound frame | repair | B182N | re-cover
04-14 | Aileron | R | 1 | dural and fabric | trailing edge bent | repair | B183W |
04-15 | Aileron hinge bracket | L | 3 | steel | sound | clean-plate | B184D |
04-16 | Aileron hinge bracket | R | 3 | steel | 1 bent | clean-plate | B185L | straighten first
04-17 | Hinge pin with safety wire | L | 3 | steel | no wire on no. 2 | clean-plate | B186U | E-18
04-18 | Hinge pin with safety wire | R | 3 | steel | wired | clean-plate | B187B |
04-19 | Bellcrank, aileron | L | 1 | light-alloy casting | sound | use | B188J | marked '5' inside
04-20 | Bellcrank, aileron | R | 1 | light-alloy casting | bush loose | repair | B189S |
04-21 | Fabric samples | C | 6 | cotton | silver over blue over grey | pattern-only | B190Z | paint story E-14
# 05 Tip floats
05-01 | Float shell | L | 1 | dural 0.7 | 3 dents | repair | B191G |
05-02 | Float shell | R | 1 | dural 0.7 | keel worn through, patched tin | repair | B192P | E-07
05-03 | Float bulkhead | L | 3 | dural 0.7 | sound | use | B193X |
05-04 | Float bulkhead | R | 3 | dural 0.7 | 1 corroded | make | B194E |
05-05 | Float strut front | L | 1 | steel tube 25 × 1 | sound | clean-plate | B195M |
05-06 | Float strut front | R | 1 | steel tube 25 × 1 | sound | clean-plate | B196V |
05-07 | Float strut rear | L | 1 | steel tube 25 × 1 | sound | clean-plate | B197C |
05-08 | Float strut rear | R | 1 | steel tube 25 × 1 | bow 3 mm | repair | B198K |
05-09 | Float bracing wire | L | 2 | steel streamline | RH end worn | replace | B199T |
05-10 | Float bracing wire | R | 2 | steel streamline | sound | use | B200A |
05-11 | Drain cap | L | 1 | brass | sound | use | B201H |
05-12 | Drain cap | R | 1 | cork | improvised | make | B202R |
# 06 Tail unit and water rudder
06-01 | Fin | C | 1 | dural and fabric | sound | repair | B203Y | re-cover
06-02 | Rudder frame | C | 1 | steel tube | rust lower bay | repair | B204F |
06-03 | Rudder hinge | C | 3 | steel | worn 0.2 | clean-plate | B205N |
06-04 | Rudder cable horn | C | 1 | steel | sound | clean-plate | B206W |
06-05 | Tailplane | L | 1 | dural and fabric | sound | repair | B207D |
06-06 | Tailplane | R | 1 | dural and fabric | front spar scratch | repair | B208L |
06-07 | Tailplane strut | L | 2 | steel tube | sound | clean-plate | B209U |
06-08 | Tailplane strut | R | 2 | steel tube | sound | clean-plate | B210B |
06-09 | Elevator | L | 1 | dural and fabric | sound | repair | B211J |
06-10 | Elevator | R | 1 | dural and fabric | sound | repair | B212S |
06-11 | Elevator torque tube | C | 1 | steel 32 × 1.5 | fretting at horn | open | B213Z | R-4
06-12 | Trim screw, tailplane | C | 1 | steel | end play 0.45 | open | B214G | Q-12
06-13 | Trim nut | C | 1 | bronze | worn | make | B215P |
06-14 | Water rudder blade | C | 1 | dural 1.5 | bent | make | B216X |
06-15 | Water rudder post | C | 1 | steel tube | sound | clean-plate | B217E |
06-16 | Water rudder lift cord pulley | C | 2 | fibre | 1 cracked | replace | B218M |
# 07 Main leg, port
07-01 | Leg forging | L | 1 | steel, chrome-molybdenum | sound | clean-plate | B219V | crack test
07-02 | Trunnion pin | L | 1 | steel 25 mm | sound, slides at 35° only | clean-plate | B220C | see trap X-1
07-03 | Trunnion bush | L | 2 | bronze | worn 0.12 | make | B221K |
07-04 | Oleo cylinder | L | 1 | steel | bore good | clean-plate | B222T |
07-05 | Oleo piston rod | L | 1 | steel 52 mm, plated | min 51.905, pits 0.03 | grind-chrome | B223A | data set S-1
07-06 | Gland nut | L | 1 | bronze | sound | use | B224H | thread right-hand both legs
07-07 | Gland packing set | L | 1 | leather | dried out | replace | B225R | soak before fit
07-08 | Damping plate | L | 1 | bronze | orifice 1.60 | use | B226Y |
07-09 | Filler and air valve | L | 1 | brass | 0.3 MPa still inside! | replace | B227F | energy item
07-10 | Upper scissors link | L | 1 | dural forging | sound | use | B228N |
07-11 | Lower scissors link | L | 1 | dural forging | sound | use | B229W |
07-12 | Scissors pin | L | 3 | steel | 0.05 wear | clean-plate | B230D |
07-13 | Axle | L | 1 | steel | TIR 0.06 | clean-plate | B231L | dial data R-2
07-14 | Wheel | L | 1 | magnesium casting | sound, corrosion 4 spots | repair | B232U |
07-15 | Brake drum | L | 1 | cast iron liner | scored | repair | B233B |
07-16 | Brake shoe | L | 2 | dural, lined | lining gone | repair | B234J |
07-17 | Brake return spring | L | 2 | steel | tired | replace | B235S |
07-18 | Wheel bearing | L | 2 | steel, tapered | pitted | replace | B236Z |
07-19 | Axle nut | L | 1 | steel | LEFT-hand thread | clean-plate | B237G | thread hand: see note
07-20 | Leg fairing | L | 1 | dural 0.7 | sound | use | B238P |
# 08 Main leg, starboard
08-01 | Leg forging | R | 1 | steel, chrome-molybdenum | pull marks from chain, bend 3 mm | open | B239X | crack test
08-02 | Trunnion pin | R | 1 | steel 25 mm | seized, sawn through 2004 | make | B240E | see trap X-1
08-03 | Trunnion bush | R | 2 | bronze | torn out | make | B241M |
08-04 | Oleo cylinder | R | 1 | steel | dent, out of round 0.09 | open | B242V |
08-05 | Oleo piston rod | R | 1 | steel 52 mm, plated | min 51.78, pits 0.09 at 140–150 mm | grind-chrome | B243C | data set S-1
08-06 | Gland nut | R | 1 | bronze | hammer and chisel marks | use | B244K | thread right-hand both legs
08-07 | Gland packing set | R | 1 | leather | dried out | replace | B245T | soak before fit
08-08 | Damping plate | R | 1 | bronze | orifice 2.10 drilled out 1957? | make | B246A |
08-09 | Filler and air valve | R | 1 | brass | gauge reads 0: valve blocked | replace | B247H | energy item
08-10 | Upper scissors link | R | 1 | dural forging | cracked web | make | B248R |
08-11 | Lower scissors link | R | 1 | dural forging | sound | use | B249Y |
08-12 | Scissors pin | R | 3 | steel | 1 missing, 1 bolt in place | clean-plate | B250F |
08-13 | Axle | R | 1 | steel | TIR 0.38 | open | B251N | dial data R-2
08-14 | Wheel | R | 1 | magnesium casting | hub cracked 40 mm | replace | B252W |
08-15 | Brake drum | R | 1 | cast iron liner | scored | repair | B253D |
08-16 | Brake shoe | R | 2 | dural, lined | lining gone | repair | B254L |
08-17 | Brake return spring | R | 2 | steel | one missing | replace | B255U |
08-18 | Wheel bearing | R | 2 | steel, tapered | pitted | replace | B256B |
08-19 | Axle nut | R | 1 | steel | right-hand thread | clean-plate | B257J | thread hand: see note
08-20 | Leg fairing | R | 1 | dural 0.7 | missing | make | B258S |
# 09 Gear drive
09-01 | Electric motor 24 V | C | 1 | maker's unit | brushes gone, shaft free | repair | B259Z |
09-02 | Motor coupling | C | 1 | steel and leather disc | disc perished | repair | B260G |
09-03 | Worm shaft | C | 1 | steel, case hardened | wear 0.08 on one flank | open | B261P | W-1
09-04 | Worm wheel 20 teeth group | C | 1 | bronze | witness of one-sided contact | open | B262X | ratio 20:1
09-05 | Gearbox case | C | 1 | aluminium casting | crack at foot, old weld | repair | B263E |
09-06 | Ratchet lever, emergency | C | 1 | steel | present, pawl spring missing | repair | B264M | stored energy small
09-07 | Torque shaft | L | 1 | steel tube 22 × 1.5 | sound | clean-plate | B265V |
09-08 | Torque shaft | R | 1 | steel tube 22 × 1.5 | twist mark 4° | open | B266C | witness line E-13
09-09 | Intermediate bearing | L | 1 | plain bronze | worn | make | B267K | must go in before tank
09-10 | Intermediate bearing | R | 1 | plain bronze | worn | make | B268T | must go in before tank
09-11 | Universal joint | L | 1 | steel | sound | clean-plate | B269A |
09-12 | Universal joint | R | 1 | steel | pin loose | repair | B270H |
09-13 | Jack screw Tr 24 × 5 LH | L | 1 | steel | sound, TIR 0.06 | clean-plate | B271R | LEFT-hand
09-14 | Jack screw Tr 24 × 5 RH | R | 1 | steel | TIR 0.39 mid | open | B272Y | data set R-1
09-15 | Jack nut, LH | L | 1 | bronze | axial play 0.15 | use | B273F |
09-16 | Jack nut, RH | R | 1 | bronze | remade: 5 threads per inch, play 0.60 | make | B274N | E-15
09-17 | Jack tube | L | 1 | steel | sound | clean-plate | B275W |
09-18 | Jack tube | R | 1 | steel | kinked at 210 mm | make | B276D |
09-19 | Thrust bearing | L | 1 | ball | rough | replace | B277L |
09-20 | Thrust bearing | R | 1 | ball | rough | replace | B278U |
09-21 | Limit switch | L | 2 | bakelite | 1 cracked | repair | B279B |
09-22 | Limit switch | R | 2 | bakelite | sound | use | B280J |
09-23 | Position indicator drum | C | 1 | brass | scale in Spanish | use | B281S | do not clean
09-24 | Indicator cable | C | 1 | steel 1.5 | broken strands | replace | B282Z |
09-25 | Down-lock hook | L | 1 | steel | sound | clean-plate | B283G | no paint in hook
09-26 | Down-lock hook | R | 1 | steel | tip worn 0.5 | open | B284P | Q-03
09-27 | Lock spring | L | 1 | steel | free length 61 | use | B285X |
09-28 | Lock spring | R | 1 | steel | free length 54 | replace | B286E |
# 10 Tail-wheel unit
10-01 | Tail-wheel leg tube | C | 1 | steel | sound | clean-plate | B287M |
10-02 | Sliding tube | C | 1 | steel 40 mm, chrome | pits 0.02 | grind-chrome | B288V |
10-03 | Main spring | C | 1 | steel | car spring, not original | make | B289C | data set S-2; stored energy
10-04 | Spring seat upper | C | 1 | dural | sound | use | B290K |
10-05 | Spring seat lower | C | 1 | mild steel washer stack | not original | make | B291T | E-06b
10-06 | Release bolt, long M14 | C | 1 | steel | MISSING (tool bolt) | make | B292A | travel 65 only: trap X-2
10-07 | Retaining nut | C | 1 | steel | thread M42 × 1.5 | clean-plate | B293H |
10-08 | Retaining nut lock wire | C | 1 | wire | NONE | replace | B294R |
10-09 | Trunnion block | C | 1 | steel forging | bent 1.8 mm | open | B295Y | E-08
10-10 | Trunnion pin | L | 1 | steel | sound | clean-plate | B296F |
10-11 | Trunnion pin | R | 1 | steel | bent | make | B297N |
10-12 | Fork | C | 1 | steel | twist 2° | repair | B298W |
10-13 | Axle, tail-wheel | C | 1 | steel | sound | clean-plate | B299D |
10-14 | Wheel, tail | C | 1 | dural | not original pattern | open | B300L | Q-11
10-15 | Tyre, tail | C | 1 | rubber | perished | replace | B301U |
10-16 | Centring spring | L | 1 | steel | free length 118 | use | B302B |
10-17 | Centring spring | R | 1 | steel | free length 131 | open | B303J | Q-13
10-18 | Centring cam | C | 1 | steel | worn 0.3 | open | B304S |
10-19 | Steering horn | C | 1 | steel | sound | clean-plate | B305Z |
10-20 | Steering shear pin | C | 1 | brass | replaced by steel nail | make | B306G | E-06c
10-21 | Dust boot | C | 1 | leather | gone | make | B307P |
# 11 Engine and propeller
11-01 | Engine 'Boreal 7-R' no. 1147 | C | 1 | unit | sudden-stop suspected; shaft TIR 0.05 | open | B308X | vendor report due
11-02 | Engine mount ring | C | 1 | steel tube | 1 crack at lug 4 | repair | B309E |
11-03 | Mount bush | C | 14 | rubber | hard | replace | B310M |
11-04 | Exhaust collector | C | 1 | steel | burnt, 2 patches | make | B311V |
11-05 | Cowl ring | C | 1 | dural 0.9 | two halves from different aircraft? | open | B312C | numbers 19 and 23; E-02
11-06 | Cowl clip | C | 12 | steel | 3 missing | clean-plate | B313K |
11-07 | Oil tank | C | 1 | dural | cracked seam | repair | B314T |
11-08 | Oil pipe set | C | 5 | copper | work-hardened | make | B315A |
11-09 | Carburettor | C | 1 | unit | complete | repair | B316H |
11-10 | Magneto | L | 1 | unit | weak coil | repair | B317R |
11-11 | Magneto | R | 1 | unit | later type | repair | B318Y |
11-12 | Propeller blade pair, wood | C | 1 | walnut and mahogany | delaminated | make | B319F | keep as pattern
11-13 | Propeller hub | C | 1 | steel | fretting | clean-plate | B320N | crack test
11-14 | Hub bolt | C | 8 | steel | mixed lengths | replace | B321W |
11-15 | Spinner | C | 1 | aluminium | from other type | make | B322D |
# 12 Controls, fuel, electrics
12-01 | Control wheel | L | 1 | wood rim | crack | repair | B323L |
12-02 | Control wheel | R | 1 | missing | throw-over type? | open | B324U | Q-04
12-03 | Control column | C | 1 | steel | sound | clean-plate | B325B |
12-04 | Column chain | C | 1 | steel | stiff | replace | B326J |
12-05 | Rudder pedal | L | 2 | light-alloy casting | 1 welded badly | repair | B327S |
12-06 | Rudder pedal | R | 2 | light-alloy casting | sound | use | B328Z |
12-07 | Cable aileron | L | 2 | steel 3 mm | rust inside | replace | B329G |
12-08 | Cable aileron | R | 2 | steel 3 mm | rust inside | replace | B330P |
12-09 | Cable elevator | C | 2 | steel 4 mm | rust inside | replace | B331X |
12-10 | Cable rudder | C | 2 | steel 4 mm | rust inside | replace | B332E |
12-11 | Turnbuckle | C | 14 | bronze and steel | 9 good | clean-plate | B333M | one end left-hand
12-12 | Pulley | C | 22 | fibre | 13 good | replace | B334V | replace 9
12-13 | Pulley bracket | C | 11 | steel | rust | clean-plate | B335C |
12-14 | Fairlead | C | 10 | fibre | 4 worn | replace | B336K |
12-15 | Fuel cock | C | 1 | brass | seeps | repair | B337T |
12-16 | Fuel filter bowl | C | 1 | glass | chipped | replace | B338A |
12-17 | Fuel pipe | C | 6 | copper | mixed | make | B339H |
12-18 | Wobble pump | C | 1 | unit | seized | repair | B340R |
12-19 | Battery box | C | 1 | wood | acid eaten | make | B341Y |
12-20 | Junction box | C | 2 | bakelite | sound | use | B342F |
12-21 | Wiring loom | C | 1 | rubber cotton | dead | make | B343N | keep as pattern; colours
12-22 | Position lamp | L | 1 | unit | red glass | use | B344W |
12-23 | Position lamp | R | 1 | unit | red glass too! | open | B345D | Q-14 wrong side lamp
12-24 | Bilge pump | C | 1 | brass | leather gone | repair | B346L |
12-25 | Altimeter | C | 1 | unit | metres scale | repair | B347U |
12-26 | Compass | C | 1 | unit | missing | replace | B348B | Q-05
12-27 | Placards | C | 9 | brass, Spanish | 6 left | make | B349J | photograph before touching
`;
