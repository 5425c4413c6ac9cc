// The parts of a job, each read from its place in the tree. Wrong parts leave problems, and what could be
// read.
#pragma once

#include "job/job.h"
#include "job/object_reader.h"
#include "measure/quad.h"
#include "measure/taped_tread.h"
#include "measure/uprights.h"

namespace treadfold {

/// `x` given in inches, as is usual in the job's unit: exact, or the nearest whole millimetre.
Length usual(const Context& context, Length x);

std::vector<Carpet> read_carpets(ObjectReader& root);
Cushion read_cushion(ObjectReader& root);
TackStrip read_strip(ObjectReader& root);
Allowances read_allowances(ObjectReader& root);
Tolerances read_tolerances(ObjectReader& root);
Supplies read_supplies(ObjectReader& root);
Terms read_terms(ObjectReader& root);

/// `carpets`: ids that flights and floors may name.
std::vector<Stair> read_stairs(ObjectReader& root, const std::vector<Carpet>& carpets);
/// Of a floor with that outline, none if it could not be read.
std::vector<FloorOpening> read_floor_openings(ObjectReader& floor, const std::vector<PlanPoint>& outline);
std::vector<Floor> read_floors(ObjectReader& stair, const std::vector<std::string>& carpet_ids);
/// A flight's "landing", if it says one; checked against the stair's floors once they are read.
std::optional<Arrival> read_arrival(ObjectReader& flight);
void check_arrivals(Context& context, const Stair& stair);
inline constexpr std::array<std::string_view, 7> kQuadKeys = {
    "front", "right", "back", "left", "diagonal_from_front_left", "diagonal_from_front_right", "tolerance"};
/// The four sides, diagonals and tolerance of `part`, solved; nothing if some are missing or do not close.
/// `all_four`: what is said where a side is missing.
std::optional<QuadSolution> read_quad(ObjectReader& part, LengthRange side, LengthRange diagonal,
                                      std::string_view all_four);
/// One of two keys that tell a distance to either side of a line: positive for the first.
std::optional<Length> read_offset(ObjectReader& o, std::string_view key, std::string_view other);
/// A corner by offsets from the front left corner: "along" the front (or "left_of" it) and "off" it, square
/// (or "before" it), mm.
std::optional<PlanPoint> read_corner(ObjectReader& part, std::string_view key);
/// The list "corners" by offsets, of `least` or more; nothing if one is wrong.
std::optional<std::vector<PlanPoint>> read_corner_list(ObjectReader& part, std::size_t least);
/// Why these corners are no outline, counter-clockwise, or "".
std::string fault_of_corners(const std::vector<PlanPoint>& corners);
/// A floor's corners by offsets: its "front", then its "corners"; none if they make no floor.
std::vector<PlanPoint> read_floor_corners(ObjectReader& floor);
/// The tread of `part`, a step's "tread", as its readings give it.
std::optional<TapedTread> read_tread(ObjectReader& part);
/// The readings of the curved front of `part`, a step's "starter", and how it is closed; not yet solved.
std::optional<Starter> read_starter(ObjectReader& part);
/// The list under "balusters" or "newels", if the part says one.
std::optional<std::vector<UprightRow>> read_uprights(ObjectReader& part, std::string_view key);
/// A flight's "runner", if it says one, judged against its steps (none if they could not be read).
std::optional<Runner> read_runner(ObjectReader& flight, const Flight& measured);
/// A runner with finished edges against the goods it is cut from.
void check_runner_goods(Context& context, const Flight& flight, const std::vector<Carpet>& carpets);
/// The id under "carpet", checked.
std::string read_carpet_id(ObjectReader& part, const std::vector<std::string>& carpet_ids);

/// How far the cutting of each carpet has come; that its pieces are of the job is for recut() to say.
std::vector<Cutting> read_cuttings(ObjectReader& root, const std::vector<Carpet>& carpets);

/// Hems, strips and corners against the steps they must fit.
void check_allowances(const Job& job, Context& context);

} // namespace treadfold
