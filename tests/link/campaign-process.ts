import { type CampaignPlan, flyOverCluster } from './cluster-campaign.ts';

/** One campaign in a process of its own, which trusts what its environment says: takes the plan as JSON, prints the figures as JSON. */
process.stdout.write(`${JSON.stringify(await flyOverCluster(JSON.parse(process.argv[2] ?? '') as CampaignPlan))}\n`);
