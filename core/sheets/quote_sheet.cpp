#include "sheets/page.h"
#include "sheets/sheet_kinds.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

struct Sum {
  std::string name;
  Money amount;
  bool bold = false;
};

std::vector<Sum> sums_of(const Quote& quote) {
  std::vector<Sum> sums{{"Subtotal", quote.subtotal + quote.uplift}};
  if (!quote.tax_name.empty()) sums.push_back({quote.tax_name, quote.tax});
  sums.push_back({"Total", quote.total, true});
  if (!quote.deposit_name.empty()) {
    sums.push_back({quote.deposit_name, quote.deposit});
    sums.push_back({"Balance when done", quote.balance});
  }
  return sums;
}

/// The lines as the customer reads them: what is added to materials is the installer's business, so it is
/// spread over their lines and the rate, which would betray it, left out. Each line is the difference of two
/// rounded running sums, so that the lines add up to subtotal + uplift to the cent.
std::vector<QuoteLine> customers_lines(const Quote& quote) {
  std::vector<QuoteLine> lines = quote.lines;
  Money material, so_far, spread;
  for (const QuoteLine& line : lines)
    if (line.material) material += line.amount;
  if (quote.uplift == Money{} || material == Money{}) return lines;
  for (QuoteLine& line : lines) {
    if (!line.material) continue;
    so_far += line.amount;
    const Money share = scaled(quote.uplift, so_far.cents, material.cents);
    line.amount += share - spread;
    spread = share;
  }
  return lines;
}

void signatures(Flow& flow) {
  flow.need(56); // the heading and all there is to sign on one page
  flow.heading("Accepted");
  Drawing& page = flow.page();
  const Box box = flow.rest();
  const double middle = box.centre().x, y = box.top + 16;
  for (const auto& [left, right, who] :
       {std::tuple{box.left, middle - 6, "Customer"}, std::tuple{middle + 6, box.right, "Installer"}}) {
    line(page, {left, y}, {right, y}, Pen::dimension);
    write(page, {left, y + 4.5}, std::string(who) + ", name and signature", {kSmallType});
    line(page, {left, y + 14}, {left + 40, y + 14}, Pen::dimension);
    write(page, {left, y + 18.5}, "Date", {kSmallType});
  }
  flow.skip(36);
}

} // namespace

Sheet quote_sheet(const Plan& plan) {
  const Quote& quote = plan.quote;
  Sheet sheet{"quote", "Quote", {}, {}};
  sheet.table.header = {"what", "quantity", "unit", "rate", "amount"};
  Flow flow(plan.job.paper);
  const Site& site = plan.job.site;
  flow.two_columns("For", {site.customer, site.address, site.contact}, "From",
                   {site.installer, site.installer_contact, site.date});

  if (!quote.scope.empty()) {
    flow.heading("What is done");
    flow.list(quote.scope);
  }
  flow.heading("Price");
  Table table{{"What", "Quantity", "", "Rate", "Amount"}, {}};
  for (const QuoteLine& line : customers_lines(quote)) {
    const bool shows_rate = !line.material || quote.uplift == Money{};
    const auto rate = [&](const std::string& symbol) {
      return shows_rate ? show_money(line.rate, symbol) : std::string();
    };
    table.rows.push_back(
        {line.what, line.quantity, line.unit, rate(quote.currency), show_money(line.amount, quote.currency)});
    sheet.table.rows.push_back({line.what, line.quantity, line.unit, rate(""), show_money(line.amount, "")});
  }
  flow.table(table,
             {{{Anchor::left, true}, {Anchor::right}, {}, {Anchor::right}, {Anchor::right}}, 4.0, true});
  for (const Sum& sum : sums_of(quote)) {
    const double size = sum.bold ? kHeadType : 4.0;
    flow.need(leading(size));
    const Box box = flow.rest();
    write(flow.page(), {box.right - 42, box.top + 0.95 * size},
          shortened(sum.name, box.width() - 46, size, sum.bold), {size, sum.bold, false, Anchor::right});
    write(flow.page(), {box.right - 1.4, box.top + 0.95 * size}, show_money(sum.amount, quote.currency),
          {size, sum.bold, false, Anchor::right});
    flow.skip(leading(size));
    sheet.table.rows.push_back({sum.name, "", "", "", show_money(sum.amount, "")});
  }

  if (!quote.net_against_ordered.empty()) {
    flow.heading("Carpet ordered and carpet laid");
    flow.paragraph(quote.net_against_ordered);
  }
  flow.heading("What to know");
  std::vector<std::string> terms{
      "Seams and the direction of the pile are shown on the roll layout and the step sheets, "
      "which belong to this quote. Seams are made tight; they are not promised invisible."};
  for (const Carpet& carpet : plan.job.carpets)
    if (!carpet.dye_lot.empty())
      terms.push_back(fmt::format("{}: dye lot {}. Carpet ordered later may differ in shade.", carpet.name,
                                  carpet.dye_lot));
  if (!quote.offcuts.empty()) terms.push_back(quote.offcuts);
  terms.push_back(fmt::format("This quote is valid for {} days from its date.", quote.valid_days));
  flow.list(terms);
  if (!quote.exclusions.empty()) {
    flow.heading("Not included");
    flow.list(quote.exclusions);
  }
  signatures(flow);
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace treadfold
