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

std::vector<Sum> sums_of(const Quote& quote, const Reader& reader) {
  std::vector<Sum> sums{{reader.say("Subtotal"), quote.subtotal + quote.uplift}};
  if (!quote.tax_name.empty()) sums.push_back({reader.said(quote.tax_name), quote.tax});
  sums.push_back({reader.say("Total"), quote.total, true});
  if (!quote.deposit_name.empty()) {
    sums.push_back({reader.said(quote.deposit_name), quote.deposit});
    sums.push_back({reader.say("Balance when done"), quote.balance});
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

void signatures(Flow& flow, const Reader& reader) {
  flow.need(56); // the heading and all there is to sign on one page
  flow.heading(reader.say("Accepted"));
  Drawing& page = flow.page();
  const Box box = flow.rest();
  const double middle = box.centre().x, y = box.top + 16;
  for (const auto& [left, right, who] :
       {std::tuple{box.left, middle - 6, reader.say("Customer, name and signature")},
        std::tuple{middle + 6, box.right, reader.say("Installer, name and signature")}}) {
    line(page, {left, y}, {right, y}, Pen::dimension);
    write(page, {left, y + 4.5}, who, {kSmallType});
    line(page, {left, y + 14}, {left + 40, y + 14}, Pen::dimension);
    write(page, {left, y + 18.5}, reader.say("Date"), {kSmallType});
  }
  flow.skip(36);
}

} // namespace

Sheet quote_sheet(const Plan& plan) {
  const Quote& quote = plan.quote;
  const Reader reader = plan.job.reader();
  Sheet sheet{"quote", reader.say("Quote"), {}, {}};
  sheet.table.header = {reader.say("what"), reader.say("quantity"), reader.say("unit"), reader.say("rate"),
                        reader.say("amount")};
  Flow flow(plan.job.paper);
  const Site& site = plan.job.site;
  flow.two_columns(reader.say("For"), {site.customer, site.address, site.contact}, reader.say("From"),
                   {site.installer, site.installer_contact, site.date});

  if (!quote.scope.empty()) {
    flow.heading(reader.say("What is done"));
    flow.list(quote.scope);
  }
  flow.heading(reader.say("Price"));
  Table table{{reader.say("What"), reader.say("Quantity"), "", reader.say("Rate"), reader.say("Amount")}, {}};
  for (const QuoteLine& line : customers_lines(quote)) {
    const bool shows_rate = !line.material || quote.uplift == Money{};
    const auto rate = [&](const std::string& symbol) {
      return shows_rate ? show_money(line.rate, symbol) : std::string();
    };
    // A rate's own words stay, but for the note that it was not counted.
    const auto what = line.unit.empty() && line.quantity == "0" ? reader.said(line.what) : line.what;
    const auto unit = reader.said(line.unit);
    table.rows.push_back(
        {what, line.quantity, unit, rate(quote.currency), show_money(line.amount, quote.currency)});
    sheet.table.rows.push_back({what, line.quantity, unit, rate(""), show_money(line.amount, "")});
  }
  flow.table(table,
             {{{Anchor::left, true}, {Anchor::right}, {}, {Anchor::right}, {Anchor::right}}, 4.0, true});
  for (const Sum& sum : sums_of(quote, reader)) {
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
    flow.heading(reader.say("Carpet ordered and carpet laid"));
    flow.paragraph(reader.said(quote.net_against_ordered));
  }
  flow.heading(reader.say("What to know"));
  std::vector<std::string> terms{
      reader.say("Seams and the direction of the pile are shown on the roll layout and the step sheets, "
                 "which belong to this quote. Seams are made tight; they are not promised invisible.")};
  for (const Carpet& carpet : plan.job.carpets)
    if (!carpet.dye_lot.empty())
      terms.push_back(reader.say("{}: dye lot {}. Carpet ordered later may differ in shade.", carpet.name,
                                 carpet.dye_lot));
  if (!quote.offcuts.empty()) terms.push_back(quote.offcuts);
  terms.push_back(reader.say("This quote is valid for {} days from its date.", quote.valid_days));
  flow.list(terms);
  if (!quote.exclusions.empty()) {
    flow.heading(reader.say("Not included"));
    flow.list(quote.exclusions);
  }
  signatures(flow, reader);
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace treadfold
